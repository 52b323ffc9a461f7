// Files that are never half written: the part that talks to the operating system (POSIX).
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace loftwright {

// How files are written. Tests give other values, to kill or fail a writer before any call that changes the disk.
struct Writing {
  std::size_t most_at_once = 1u << 20;             // [bytes] handed to the system in one call
  std::function<void()> before_each_call = [] {};  // what it throws counts as the call's own failure
};

// Whether something stands under this name. Throws InputError when that cannot be told: a link that leads back to itself, a
// name that is too long, a folder nobody may look into.
bool is_there(const std::filesystem::path& path);

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
  int lock_;
};

}  // namespace loftwright
