#include "core/disk.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdint>
#include <fstream>
#include <system_error>

#include "loftwright/core/error.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

std::string reason() { return std::generic_category().message(errno); }

// A call that is repeated when a signal came between, and whose failure is thrown.
template <class Call>
auto checked(const Writing& writing, Call call) {
  writing.before_each_call();
  auto result = call();
  while (result == -1 && errno == EINTR) result = call();
  if (result == -1) throw std::system_error(errno, std::generic_category());
  return result;
}

class OpenFile {
 public:
  explicit OpenFile(int file) : file_(file) {}
  ~OpenFile() { ::close(file_); }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  int get() const { return file_; }

 private:
  int file_;
};

// Signals that ask this thread to end wait until this is gone: a key pressed at the wrong moment leaves nothing half
// done.
class EndingWaits {
 public:
  EndingWaits() {
    sigset_t ending;
    sigemptyset(&ending);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ending, signal);
    pthread_sigmask(SIG_BLOCK, &ending, &before_);
  }
  ~EndingWaits() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  EndingWaits(const EndingWaits&) = delete;
  EndingWaits& operator=(const EndingWaits&) = delete;

 private:
  sigset_t before_;
};

fs::path folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path() : fs::path("."); }

// Short, so that it fits wherever the file's own name does, and beyond guessing.
std::string fresh_name(const Writing& writing) {
  std::uint64_t drawn = 0;
  checked(writing, [&] { return ::getentropy(&drawn, sizeof drawn); });
  return fmt::format(".loftwright-{:016x}.new", drawn);
}

// A file of our own beside the one to be replaced: what is there already, a link or a pipe too, is never opened.
class FreshFile {
 public:
  FreshFile(const fs::path& folder, const Writing& writing)
      : name_(folder / fresh_name(writing)), file_(checked(writing, [&] {
          return ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
        })) {}
  ~FreshFile() {
    if (!placed_) ::unlink(name_.c_str());
  }
  FreshFile(const FreshFile&) = delete;
  FreshFile& operator=(const FreshFile&) = delete;

  void write(std::string_view text, const fs::path& like, const Writing& writing) const {
    struct stat wanted {
    }, has{};
    if (::stat(like.c_str(), &wanted) == 0 && ::fstat(file_.get(), &has) == 0 && wanted.st_mode != has.st_mode) {
      checked(writing, [&] { return ::fchmod(file_.get(), wanted.st_mode & 0777); });
    }
    while (!text.empty()) {
      const std::size_t most = std::min(text.size(), writing.most_at_once);
      text.remove_prefix(
          static_cast<std::size_t>(checked(writing, [&] { return ::write(file_.get(), text.data(), most); })));
    }
    checked(writing, [&] { return ::fsync(file_.get()); });
  }

  void take_place_of(const fs::path& file, const Writing& writing) {
    checked(writing, [&] { return ::rename(name_.c_str(), file.c_str()); });
    placed_ = true;
  }

 private:
  fs::path name_;
  OpenFile file_;
  bool placed_ = false;
};

// The folder holds the names: without this a renamed file may come back under its old name after a power cut.
void sync_folder(const fs::path& folder, const Writing& writing) {
  const OpenFile names(checked(writing, [&] { return ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); }));
  checked(writing, [&] {
    const int result = ::fsync(names.get());
    return result == -1 && errno == EINVAL ? 0 : result;  // a file system that has no such thing
  });
}

}  // namespace

FileKind kind_of(const fs::path& path) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (!fs::status_known(status)) return FileKind::untold;
  if (!fs::exists(status)) return FileKind::none;
  return fs::is_regular_file(status) ? FileKind::file : fs::is_directory(status) ? FileKind::folder : FileKind::other;
}

bool is_there(const fs::path& path) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (!fs::status_known(status)) throw InputError(fmt::format("{}: {}", path.string(), failed.message()));
  return fs::exists(status);
}

bool is_same_file(const fs::path& a, const fs::path& b) {
  std::error_code none;
  return fs::equivalent(a, b, none);
}

bool has_second_name(const fs::path& file) {
  std::error_code none;
  return fs::exists(file, none) && fs::hard_link_count(file, none) > 1;
}

std::vector<std::string> list_folder(const fs::path& folder, std::size_t most) {
  std::vector<std::string> names;
  std::error_code failed;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end && names.size() < most;
       at.increment(failed)) {
    names.push_back(at->path().filename().string());
  }
  if (failed) throw InputError(fmt::format("{}: {}", folder.string(), failed.message()));
  std::sort(names.begin(), names.end());  // a folder has no order of its own
  return names;
}

void make_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directory(folder, failed);
  if (failed) throw InputError(fmt::format("the folder {} cannot be made: {}", folder.string(), failed.message()));
}

std::string read_file(const fs::path& file, std::size_t most) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw InputError(fmt::format("{} cannot be opened: {}", file.string(), reason()));
  std::string text;
  constexpr std::size_t kChunk = 64u << 10;
  while (in && text.size() < most) {
    const std::size_t old = text.size(), more = std::min(kChunk, most - old);
    text.resize(old + more);
    in.read(text.data() + old, static_cast<std::streamsize>(more));
    text.resize(old + static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) throw InputError(fmt::format("{} cannot be read to its end", file.string()));
  return text;
}

fs::path through_links(const fs::path& file) {
  std::error_code failed;
  if (!fs::is_symlink(file, failed)) return file;
  fs::path target = fs::canonical(file, failed);
  if (!failed) return target;
  std::error_code unreadable;
  throw InputError(fmt::format("{} is a link to {}, which cannot be reached ({}); is the drive there?", file.string(),
                               fs::read_symlink(file, unreadable).string(), failed.message()));
}

void check_replaceable(const fs::path& file) {
  if (!is_there(file)) return;
  std::error_code none;
  const fs::file_status status = fs::status(file, none);
  if (!fs::is_regular_file(status)) {  // a device would be lost for a file of its name
    throw InputError(fmt::format("{} is there and is not a plain file", file.string()));
  }
  // A rename asks nobody whether the file may be written; whoever made it read-only wanted to be asked.
  constexpr fs::perms kMayWrite = fs::perms::owner_write | fs::perms::group_write | fs::perms::others_write;
  if ((status.permissions() & kMayWrite) == fs::perms::none || ::access(file.c_str(), W_OK) != 0) {
    throw InputError(fmt::format("{} is read-only and was left as it is; allow writing to it first", file.string()));
  }
}

void replace_file(const fs::path& file, std::string_view text, const fs::path& like, const Writing& writing) {
  check_replaceable(file);
  const EndingWaits here;
  try {
    FreshFile fresh(folder_of(file), writing);
    fresh.write(text, like, writing);
    fresh.take_place_of(file, writing);
    sync_folder(folder_of(file), writing);
  } catch (const std::system_error& e) {
    const std::string said = fmt::format("{} could not be written: {}", file.string(), e.code().message());
    if (e.code() == std::errc::filename_too_long) throw InputError(said);
    throw Error(said);
  }
}

WriteLock::WriteLock(const fs::path& file) : name_(file.string() + ".lock") {
  for (bool same = false; !same;) {
    lock_ = ::open(name_.c_str(), O_RDONLY | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0666);
    if (lock_ == -1 && errno == ENOENT)
      throw InputError(fmt::format("there is no folder {}; make it first", folder_of(file).string()));
    if (lock_ == -1) throw InputError(fmt::format("{} cannot be written: {}", name_, reason()));
    struct stat held {
    }, named{};
    const bool plain = ::fstat(lock_, &held) == 0 && S_ISREG(held.st_mode);
    if (!plain || ::flock(lock_, LOCK_EX | LOCK_NB) != 0) {
      const bool taken = plain && errno == EWOULDBLOCK;
      const std::string why = plain ? reason() : "it is not a plain file";
      ::close(lock_);
      throw InputError(
          taken ? fmt::format("{} is being changed by another program, which holds {}; try again when it is done",
                              file.string(), name_)
                : fmt::format("{} cannot be locked: {}", name_, why));
    }
    // Whoever held it before took its name away in the end: then another may hold another file of this name.
    same = ::lstat(name_.c_str(), &named) == 0 && named.st_ino == held.st_ino && named.st_dev == held.st_dev;
    if (!same) ::close(lock_);
  }
}

WriteLock::~WriteLock() {
  struct stat held {};
  if (::fstat(lock_, &held) == 0 && held.st_size == 0)
    ::unlink(name_.c_str());  // not a file of the user's of this name
  ::close(lock_);
}

}  // namespace loftwright
