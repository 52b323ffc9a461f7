#include "progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <iostream>

namespace loftwright::cli {

Progress::Progress(const Session& session, std::string what, std::size_t total)
    : session_(session),
      what_(std::move(what)),
      total_(total),
      shows_(!session.quiet && &session.err == &std::cerr && isatty(STDERR_FILENO) != 0),
      next_(Clock::now() + std::chrono::milliseconds(500)) {}

Progress::~Progress() {
  if (shown_) session_.err << "\r\033[K" << std::flush;
}

void Progress::at(std::size_t done) {
  if (!shows_) return;
  const std::unique_lock lock(mutex_, std::try_to_lock);
  if (!lock || Clock::now() < next_) return;
  next_ = Clock::now() + std::chrono::milliseconds(100);
  session_.err << fmt::format("\r{} of {} {} ({:.0f} %)", done, total_, what_,
                              100.0 * static_cast<double>(done) / static_cast<double>(total_))
               << std::flush;
  shown_ = true;
}

}  // namespace loftwright::cli
