#include "disk_memory.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/disk.hpp"
#include "loftwright/core/error.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

struct Files {
  desk::Texts texts;
  std::set<std::string> written;
};

// The one disk of the process, as the operating system's is.
Files& files() {
  static Files all;
  return all;
}

// One name of all that lead to a file: "./a/../b.json" is "b.json"; the folder everything is in is "".
std::string plain(const fs::path& path) {
  std::string name = path.lexically_normal().string();
  while (name.size() > 1 && name.ends_with('/')) name.pop_back();
  return name == "." ? "" : name;
}

std::string beginning(const std::string& folder) {
  return folder.empty() || folder.ends_with('/') ? folder : folder + "/";
}

// What the operating system would say of a name, if it would refuse it.
const char* trouble_of(const fs::path& path) {
  constexpr std::size_t kLongest = 255;  // [bytes] of one name in a path, as most file systems have it
  for (const fs::path& part : path) {
    if (part.string().size() > kLongest) return "File name too long";
  }
  return nullptr;
}

bool is_file(const std::string& name) { return files().texts.contains(name); }

bool is_folder(const std::string& name) {
  if (name.empty()) return true;
  const std::string begins = beginning(name);
  const auto at = files().texts.lower_bound(begins);
  return at != files().texts.end() && at->first.starts_with(begins);
}

std::string folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path().string() : "."; }

}  // namespace

FileKind kind_of(const fs::path& path) {
  if (trouble_of(path)) return FileKind::untold;
  const std::string name = plain(path);
  if (path.empty()) return FileKind::none;
  if (is_folder(name)) return FileKind::folder;
  return is_file(name) && !path.string().ends_with('/') ? FileKind::file : FileKind::none;
}

bool is_there(const fs::path& path) {
  if (const char* trouble = trouble_of(path)) throw InputError(fmt::format("{}: {}", path.string(), trouble));
  return kind_of(path) != FileKind::none;
}

bool is_same_file(const fs::path& a, const fs::path& b) { return seems_there(a) && plain(a) == plain(b); }

bool has_second_name(const fs::path&) { return false; }

std::vector<std::string> list_folder(const fs::path& folder, std::size_t most) {
  if (kind_of(folder) != FileKind::folder)
    throw InputError(fmt::format("{}: {}", folder.string(), "No such file or directory"));
  const std::string begins = beginning(plain(folder));
  std::vector<std::string> names;
  for (auto at = files().texts.lower_bound(begins); at != files().texts.end() && at->first.starts_with(begins); ++at) {
    const std::string rest = at->first.substr(begins.size()), name = rest.substr(0, rest.find('/'));
    const bool again = !names.empty() && names.back() == name;
    if (!name.empty() && !again && names.size() < most) names.push_back(name);
  }
  // What lies in "ivo/" stands behind "ivo.json" among the texts.
  std::sort(names.begin(), names.end());
  return names;
}

void make_folder(const fs::path& folder) {
  const char* trouble = trouble_of(folder);
  if (!trouble && kind_of(folder) == FileKind::file) trouble = "Not a directory";
  if (!trouble && kind_of(folder_of(plain(folder))) != FileKind::folder) trouble = "No such file or directory";
  if (trouble) throw InputError(fmt::format("the folder {} cannot be made: {}", folder.string(), trouble));
  if (!is_folder(plain(folder))) files().texts[plain(folder) + "/"] = "";
}

std::string read_file(const fs::path& file, std::size_t most) {
  const auto at = files().texts.find(plain(file));
  if (at == files().texts.end())
    throw InputError(fmt::format("{} cannot be opened: No such file or directory", file.string()));
  return at->second.substr(0, most);
}

fs::path through_links(const fs::path& file) { return file; }

void check_replaceable(const fs::path& file) {
  if (is_there(file) && kind_of(file) != FileKind::file) {
    throw InputError(fmt::format("{} is there and is not a plain file", file.string()));
  }
}

void replace_file(const fs::path& file, std::string_view text, const fs::path&, const Writing&) {
  check_replaceable(file);
  if (kind_of(folder_of(file)) != FileKind::folder) {
    throw Error(fmt::format("{} could not be written: No such file or directory", file.string()));
  }
  files().texts[plain(file)] = text;
  files().written.insert(plain(file));
}

// Nobody else is there to wait for.
WriteLock::WriteLock(const fs::path& file) : name_(file.string() + ".lock"), lock_(0) {
  if (kind_of(folder_of(file)) != FileKind::folder) {
    throw InputError(fmt::format("there is no folder {}; make it first", folder_of(file)));
  }
}

WriteLock::~WriteLock() = default;

namespace desk {

void put_files(const Texts& texts) {
  files() = {};
  for (const auto& [name, text] : texts) {
    const bool is_name_of_folder = name.ends_with('/');
    files().texts[plain(name) + (is_name_of_folder ? "/" : "")] = text;
  }
}

Texts written_files() {
  Texts out;
  for (const std::string& name : files().written) out[name] = files().texts[name];
  return out;
}

}  // namespace desk

}  // namespace loftwright
