// Files: every call that looks at, lists, reads or writes one is declared here, and those written are never half
// written. disk_posix.cpp talks to the operating system; where there is none, cli/desk/disk_memory.cpp, linked in its
// place, holds files as texts in memory.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace loftwright {

// What stands under a name, through links. `untold`: that cannot be told, as of a link that leads back to itself, a
// name that is too long, or in a folder nobody may look into.
enum class FileKind { none, file, folder, other, untold };
FileKind kind_of(const std::filesystem::path& path);

// Whether something stands under this name. Throws InputError with the reason when that cannot be told.
bool is_there(const std::filesystem::path& path);

// The same, but false when that cannot be told.
inline bool seems_there(const std::filesystem::path& path) {
  const FileKind kind = kind_of(path);
  return kind != FileKind::none && kind != FileKind::untold;
}

// Whether two names lead to one file or folder that is there; false when that cannot be told.
bool is_same_file(const std::filesystem::path& a, const std::filesystem::path& b);

// Whether a file that is there has another name (a hard link), which would keep its old text when this one's is
// replaced.
bool has_second_name(const std::filesystem::path& file);

// The names in a folder, at most `most` of them, in their order. Throws InputError when it is none or cannot be read.
std::vector<std::string> list_folder(const std::filesystem::path& folder,
                                     std::size_t most = std::numeric_limits<std::size_t>::max());

// Makes a folder within one that is there; nothing where there is such a folder already. Throws InputError when it
// cannot be made: another thing has that name, there is nothing to make it in, or it is not to be written in.
void make_folder(const std::filesystem::path& folder);

// The first bytes of a file, at most `most`. Throws InputError when it cannot be opened or read.
std::string read_file(const std::filesystem::path& file, std::size_t most);

// How files are written. Tests give other values, to kill or fail a writer before any call that changes the disk.
struct Writing {
  std::size_t most_at_once = 1u << 20;             // [bytes] handed to the system in one call
  std::function<void()> before_each_call = [] {};  // what it throws counts as the call's own failure
};

// The file a link leads to, so that the file itself is replaced and not the link to it. Throws InputError when the link
// leads to nothing: what it leads to may be on a drive that is not there now.
std::filesystem::path through_links(const std::filesystem::path& file);

// Throws InputError unless `file` may be replaced: it is not there, or is a plain file that is not read-only.
void check_replaceable(const std::filesystem::path& file);

// Whoever looks at `file` sees its old text or the new one whole; when this returns the new one is safe on disk. A new
// file may be read by whom `like` may be read. Throws Error, and then the old text may still stand; InputError as
// check_replaceable does, and for a name that is too long. Until it takes the place of `file` the text stands beside it
// under a name of its own, which nothing that is there has; a signal that asks to end waits till this is done, so that
// it leaves nothing beside `file`.
void replace_file(const std::filesystem::path& file, std::string_view text, const std::filesystem::path& like,
                  const Writing& writing);

// FILE.lock, held and there as long as this lives; a process that ends in any way lets go of it. Throws InputError when
// another holds it or the folder is not there or not to be written in.
class WriteLock {
 public:
  explicit WriteLock(const std::filesystem::path& file);
  ~WriteLock();
  WriteLock(const WriteLock&) = delete;
  WriteLock& operator=(const WriteLock&) = delete;

 private:
  std::string name_;
  [[maybe_unused]] int lock_;  // where there are files of a system
};

}  // namespace loftwright
