#include "core/disk.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
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

// Signals that ask this thread to end wait until this is gone: a key pressed at the wrong moment leaves nothing half done.
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

void write_whole(const fs::path& file, std::string_view text, const fs::path& like, const Writing& writing) {
  const OpenFile out(
      checked(writing, [&] { return ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666); }));
  struct stat wanted {
  }, has{};
  if (::stat(like.c_str(), &wanted) == 0 && ::fstat(out.get(), &has) == 0 && wanted.st_mode != has.st_mode) {
    checked(writing, [&] { return ::fchmod(out.get(), wanted.st_mode & 0777); });
  }
  while (!text.empty()) {
    const std::size_t most = std::min(text.size(), writing.most_at_once);
    text.remove_prefix(
        static_cast<std::size_t>(checked(writing, [&] { return ::write(out.get(), text.data(), most); })));
  }
  checked(writing, [&] { return ::fsync(out.get()); });
}

// The folder holds the names: without this a renamed file may come back under its old name after a power cut.
void sync_folder(const fs::path& folder, const Writing& writing) {
  const OpenFile names(checked(writing, [&] { return ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); }));
  checked(writing, [&] {
    const int result = ::fsync(names.get());
    return result == -1 && errno == EINVAL ? 0 : result;  // a file system that has no such thing
  });
}

}  // namespace

fs::path through_links(const fs::path& file) {
  std::error_code ignored;
  if (!fs::is_symlink(file, ignored)) return file;
  const fs::path target = fs::weakly_canonical(file, ignored);
  return ignored ? file : target;
}

void replace_file(const fs::path& file, std::string_view text, const fs::path& like, const Writing& writing) {
  std::error_code none;
  if (fs::exists(file, none) && !fs::is_regular_file(file, none)) {  // a device would be lost for a file of its name
    throw InputError(fmt::format("{} is there and is not a plain file", file.string()));
  }
  const fs::path fresh = file.string() + ".new";
  const EndingWaits here;
  try {
    write_whole(fresh, text, like, writing);
    checked(writing, [&] { return ::rename(fresh.c_str(), file.c_str()); });
    sync_folder(folder_of(file), writing);
  } catch (const std::system_error& e) {
    ::unlink(fresh.c_str());
    throw Error(fmt::format("{} could not be written: {}", file.string(), e.code().message()));
  }
}

WriteLock::WriteLock(const fs::path& file) {
  const std::string name = file.string() + ".lock";
  lock_ = ::open(name.c_str(), O_RDONLY | O_CREAT | O_CLOEXEC, 0666);
  if (lock_ == -1 && errno == ENOENT)
    throw InputError(fmt::format("there is no folder {}; make it first", folder_of(file).string()));
  if (lock_ == -1) throw InputError(fmt::format("{} cannot be written: {}", name, reason()));
  if (::flock(lock_, LOCK_EX | LOCK_NB) == 0) return;
  const bool held = errno == EWOULDBLOCK;
  const std::string why = reason();
  ::close(lock_);
  throw InputError(
      held ? fmt::format("{} is being changed by another program, which holds {}; try again when it is done",
                         file.string(), name)
           : fmt::format("{} cannot be locked: {}", name, why));
}

WriteLock::~WriteLock() { ::close(lock_); }

}  // namespace loftwright
