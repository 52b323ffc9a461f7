#include "files/store.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "files/book_json.hpp"
#include "loftwright/files/pupil_file.hpp"

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
  if (!is_there(file)) return {State::missing, "", "is missing", {}};
  if (kind_of(file) == FileKind::file && read_file(file, 1).empty()) return {State::damaged, "", "is empty", {}};
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
            {fmt::format("{} {}: its previous version is taken in its place (version {}, {})", file.string(),
                         now.trouble, before.book.version, how_many(before.book.sessions.size(), "session"))},
            true};
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
  } catch (const InputError&) {
    throw;
  } catch (const Error& error) {
    throw Error(fmt::format("{}; no session that was kept before is lost", error.what()));
  }
}

// A name that nothing has yet: FILE.damaged, FILE.damaged-2, ...
fs::path damaged_name(const fs::path& file) {
  const std::string first = file.string() + ".damaged";
  for (int i = 1;; ++i) {
    fs::path name = i == 1 ? first : fmt::format("{}-{}", first, i);
    if (!is_there(name)) return name;
  }
}

// `next` becomes the book in place of `now`, and what was there becomes the version before it: `now` itself, or the
// book that was taken in its place when `now` is not sound. That one's version then is the one the lost book had, so
// that what follows is counted from there and no session's number is given twice.
void keep(const fs::path& file, const Version& now, const Book& taken, LoadedBook& next, const Writing& writing) {
  const std::string text = book_text(next.book);
  if (text.size() > kMostBytes) {
    throw InputError(fmt::format("{} would grow beyond {} bytes: begin another book", file.string(), kMostBytes));
  }
  if (has_second_name(file)) {
    next.warnings.push_back(fmt::format(
        "{} had a second name (a hard link): this change is under {} alone, the other name keeps the book as it was",
        file.string(), file.string()));
  }
  if (now.state == State::damaged && !now.text.empty()) {
    const fs::path rest = damaged_name(file);
    replace(rest, now.text, file, writing);
    next.warnings.push_back(fmt::format("what was left of the damaged file is kept as {}", rest.string()));
  }
  if (now.state == State::sound) {
    replace(previous_of(file), now.text, file, writing);
  } else if (next.restored) {
    replace(previous_of(file), book_text(taken), file, writing);
  }
  replace(file, text, file, writing);
}

bool same_sessions(const Book& a, Book b) {
  b.version = a.version;
  return book_text(a) == book_text(b);
}

// The book that is to be changed, when `now` stands under its name, with the version that the last writer gave it.
LoadedBook to_change(const fs::path& file, const Version& now, WhenMissing when_missing) {
  LoadedBook taken = loaded(file, now, when_missing);
  if (taken.restored) ++taken.book.version;
  return taken;
}

}  // namespace

LoadedBook load_book(const fs::path& file) {
  const fs::path at = through_links(file);
  return loaded(at, version_at(at), WhenMissing::refuse);
}

LoadedBook change_book(const fs::path& file, WhenMissing when_missing, const BookChange& change,
                       const Writing& writing) {
  const fs::path at = through_links(file);
  check_replaceable(at);
  if (when_missing == WhenMissing::refuse) load_book(at);  // no lock for what is not there
  const WriteLock lock(at);
  const Version now = version_at(at);
  const LoadedBook taken = to_change(at, now, when_missing);
  LoadedBook next = taken;
  ++next.book.version;
  change(next.book);
  keep(at, now, taken.book, next, writing);
  return next;
}

LoadedBook undo_change(const fs::path& file, const Writing& writing) {
  const fs::path at = through_links(file);
  check_replaceable(at);
  load_book(at);  // no lock for what is not there
  const WriteLock lock(at);
  const Version now = version_at(at);
  const LoadedBook taken = to_change(at, now, WhenMissing::refuse);
  LoadedBook next = taken;
  if (!taken.restored) {
    const Version before = version_at(previous_of(at));
    if (before.state != State::sound) {
      throw InputError(
          fmt::format("{}: nothing can be undone: its previous version {}", file.string(), before.trouble));
    }
    if (same_sessions(now.book, before.book)) {
      throw InputError(fmt::format("{}: nothing can be undone: its previous version is the same", file.string()));
    }
    next.book = before.book;
    next.book.version = std::max(now.book.version, before.book.version);
  }
  ++next.book.version;
  keep(at, now, taken.book, next, writing);
  return next;
}

LoadedBook change_book(const fs::path& file, WhenMissing when_missing, const BookChange& change) {
  return change_book(file, when_missing, change, Writing{});
}

LoadedBook undo_change(const fs::path& file) { return undo_change(file, Writing{}); }

}  // namespace loftwright
