#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <system_error>
#include <vector>

#include "core/disk.hpp"
#include "loftwright/core/nearest.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

// The file of the folder whose name is nearest, when it is near; "" when none is.
std::string near_words(const fs::path& file) {
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  const std::string name = file.filename().string();
  std::vector<std::string> there;
  std::error_code failed;
  constexpr std::size_t kMost = 10'000;  // in a folder of more the answer would take its time
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end && there.size() < kMost; at.increment(failed)) {
    if (std::error_code none; fs::is_regular_file(at->path(), none)) there.push_back(at->path().filename().string());
  }
  std::sort(there.begin(), there.end());  // a folder has no order of its own
  const std::string near = nearest(name, there);
  if (near.empty() || edit_distance(name, near) > std::max<std::size_t>(2, near.size() / 4)) return "";
  return fmt::format("; the nearest is {}", (file.has_parent_path() ? folder / near : fs::path(near)).string());
}

}  // namespace

std::string read_text(const fs::path& file, std::size_t limit) {
  if (!is_there(file)) throw InputError(fmt::format("{}: there is no such file{}", file.string(), near_words(file)));
  if (std::error_code none; fs::is_directory(file, none))
    throw InputError(fmt::format("{} is a folder; a file is expected", file.string()));
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    throw InputError(fmt::format("{} cannot be opened: {}", file.string(), std::generic_category().message(errno)));
  }
  // Read one byte beyond the limit rather than ask for the size: a pipe has none.
  std::string text;
  constexpr std::size_t kChunk = 64u << 10;
  while (in && text.size() <= limit) {
    const std::size_t old = text.size(), more = std::min(kChunk, limit + 1 - old);
    text.resize(old + more);
    in.read(text.data() + old, static_cast<std::streamsize>(more));
    text.resize(old + static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) throw InputError(fmt::format("{} cannot be read to its end", file.string()));
  if (text.empty()) throw InputError(fmt::format("{} is empty", file.string()));
  if (text.size() > limit) {
    throw InputError(fmt::format("{} is too large; allowed: at most {} bytes", file.string(), limit));
  }
  return text;
}

void check_may_write(const fs::path& file) { check_replaceable(through_links(file)); }

void write_text(const fs::path& file, std::string_view text, const fs::path& like) {
  replace_file(through_links(file), text, like, {});
}

}  // namespace loftwright
