#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "core/disk.hpp"
#include "core/nearest.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

// The file of the folder whose name is nearest, when it is near; "" when none is.
std::string near_words(const fs::path& file) {
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  const std::string name = file.filename().string();
  std::vector<std::string> there;
  constexpr std::size_t kMost = 10'000;  // in a folder of more the answer would take its time
  try {
    for (const std::string& other : list_folder(folder, kMost)) {
      if (kind_of(folder / other) == FileKind::file) there.push_back(other);
    }
  } catch (const InputError&) {  // no such folder, or one that may not be looked into
    return "";
  }
  const std::string near = nearest(name, there);
  if (near.empty() || !may_be_meant(name, near)) return "";
  return fmt::format("; the nearest is {}", (file.has_parent_path() ? folder / near : fs::path(near)).string());
}

}  // namespace

std::string read_text(const fs::path& file, std::size_t limit) {
  if (!is_there(file)) throw InputError(fmt::format("{}: there is no such file{}", file.string(), near_words(file)));
  if (kind_of(file) == FileKind::folder)
    throw InputError(fmt::format("{} is a folder; a file is expected", file.string()));
  std::string text = read_file(file, limit + 1);  // rather than ask for the size: a pipe has none
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
