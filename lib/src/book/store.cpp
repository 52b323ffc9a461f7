#include "book/store.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/book_json.hpp"
#include "loftwright/io/pupil_file.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostBytes = 8u << 20;

// What stands under a name.
struct Version {
  enum class State { missing, damaged, sound } state;
  std::string text;
  std::string trouble;  // of what is not sound, as the end of a sentence
  Book book;            // of what is sound
};
using State = Version::State;

fs::path previous_of(const fs::path& file) { return file.string() + ".previous"; }

// Damaged is what a broken write, disk or transfer leaves: nothing, or no JSON. What is JSON but no book of ours was
// made by somebody, perhaps by a newer program, and is not passed over: FileError.
Version version_at(const fs::path& file) {
  std::error_code ignored;
  if (!fs::exists(file, ignored)) return {State::missing, "", "is missing", {}};
  if (fs::is_regular_file(file, ignored) && fs::is_empty(file, ignored)) return {State::damaged, "", "is empty", {}};
  std::string text = read_text(file, kMostBytes);
  Findings findings;
  const auto document = parse_json(text, findings);
  if (!document) {
    const Finding& f = findings.front();
    return {State::damaged, std::move(text), fmt::format("is damaged ({}: {})", f.place, f.message), {}};
  }
  auto book = book_from(*document, findings);
  if (!book || has_errors(findings)) throw FileError(file.string(), findings);
  return {State::sound, std::move(text), "", std::move(*book)};
}

// The book that counts, when `now` is what stands under its name.
LoadedBook loaded(const fs::path& file, const Version& now, WhenMissing when_missing) {
  if (now.state == State::sound) return {now.book, {}};
  const Version before = version_at(previous_of(file));
  if (before.state == State::sound) {
    return {before.book,
            {fmt::format("{} {}: its previous version is taken in its place (version {}, {} session{})", file.string(),
                         now.trouble, before.book.version, before.book.sessions.size(),
                         before.book.sessions.size() == 1 ? "" : "s")}};
  }
  if (now.state == State::missing && before.state == State::missing) {
    if (when_missing == WhenMissing::begin) return {};
    throw InputError(fmt::format("{}: there is no such book", file.string()));
  }
  throw InputError(fmt::format("{} {}, and its previous version {}", file.string(), now.trouble, before.trouble));
}

void replace(const fs::path& file, std::string_view text, const fs::path& like, const Writing& writing) {
  try {
    replace_file(file, text, like, writing);
  } catch (const Error& error) {
    throw Error(fmt::format("{}; no session that was kept before is lost", error.what()));
  }
}

void keep(const fs::path& file, const Version& now, const Book& next, const Writing& writing) {
  const std::string text = book_text(next);
  if (text.size() > kMostBytes) {
    throw InputError(fmt::format("{} would grow beyond {} bytes: begin another book", file.string(), kMostBytes));
  }
  if (now.state == State::sound) replace(previous_of(file), now.text, file, writing);
  if (now.state == State::damaged && !now.text.empty())
    replace(file.string() + ".damaged", now.text, file, writing);
  replace(file, text, file, writing);
}

}  // namespace

LoadedBook load_book(const fs::path& file) {
  const fs::path at = through_links(file);
  return loaded(at, version_at(at), WhenMissing::refuse);
}

LoadedBook change_book(const fs::path& file, WhenMissing when_missing, const BookChange& change,
                       const Writing& writing) {
  const fs::path at = through_links(file);
  if (when_missing == WhenMissing::refuse) load_book(at);  // no lock for what is not there
  const WriteLock lock(at);
  const Version now = version_at(at);
  LoadedBook next = loaded(at, now, when_missing);
  ++next.book.version;
  change(next.book);
  keep(at, now, next.book, writing);
  return next;
}

LoadedBook undo_change(const fs::path& file, const Writing& writing) {
  const fs::path at = through_links(file);
  load_book(at);  // no lock for what is not there
  const WriteLock lock(at);
  const Version now = version_at(at), before = version_at(previous_of(at));
  if (before.state != State::sound) {
    throw InputError(fmt::format("{}: nothing can be undone: its previous version {}", file.string(), before.trouble));
  }
  if (now.text == before.text) {
    throw InputError(fmt::format("{}: nothing can be undone: its previous version is the same", file.string()));
  }
  LoadedBook next{before.book, {}};
  next.book.version = std::max(now.book.version, before.book.version) + 1;
  keep(at, now, next.book, writing);
  return next;
}

LoadedBook change_book(const fs::path& file, WhenMissing when_missing, const BookChange& change) {
  return change_book(file, when_missing, change, Writing{});
}

LoadedBook undo_change(const fs::path& file) { return undo_change(file, Writing{}); }

}  // namespace loftwright
