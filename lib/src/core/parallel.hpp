// Independent work spread over threads. Which thread does what never shows in the result.
#pragma once

#include <algorithm>
#include <cstddef>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

namespace loftwright {

// Calls work(i) for each i below count, on at most `threads` threads (the caller's among them; below 1: one); where the
// system gives fewer, these do it all. The first exception thrown is passed on when all have ended.
template <class Work>
void parallel_for(std::size_t count, int threads, const Work& work) {
  const std::size_t workers = std::min(count, static_cast<std::size_t>(std::max(threads, 1)));
  std::vector<std::exception_ptr> thrown(workers);
  const auto share = [&](std::size_t worker) {
    try {
      for (std::size_t i = worker * count / workers; i < (worker + 1) * count / workers; ++i) work(i);
    } catch (...) {
      thrown[worker] = std::current_exception();
    }
  };
  std::vector<std::thread> others;
  others.reserve(workers);
  std::size_t mine = 1;
  try {
    for (; mine < workers; ++mine) others.emplace_back(share, mine);
  } catch (const std::system_error&) {  // none left, or none at all
  }
  if (workers > 0) share(0);
  for (; mine < workers; ++mine) share(mine);
  for (std::thread& other : others) other.join();
  for (const std::exception_ptr& e : thrown) {
    if (e) std::rethrow_exception(e);
  }
}

}  // namespace loftwright
