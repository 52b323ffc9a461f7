// Pupils handed over one by one to whatever is done with each, on some threads; what cannot be had is told and stops
// nothing.
#pragma once

#include <algorithm>
#include <atomic>
#include <functional>

#include "core/parallel.hpp"
#include "loftwright/clinic/clinic.hpp"

namespace loftwright {

// How many threads one pupil may use where there are fewer pupils than threads.
inline int threads_each(std::size_t count, int threads) {
  return std::max(1, threads / static_cast<int>(std::clamp<std::size_t>(count, 1, 1024)));
}

inline AdviseOptions options_for(const Entrant& entrant, AdviseOptions options) {
  if (entrant.widths) options.widths = *entrant.widths;
  return options;
}

// answer(i, entrant) for each of `count`, whoever is free next; failed(i, findings) where that pupil or the answer
// cannot be had.
template <class Answer, class Failed>
void each_entrant(std::size_t count, const EntrantSource& entrant, int threads,
                  const std::function<void(std::size_t)>& done, const Answer& answer, const Failed& failed) {
  std::atomic<std::size_t> next = 0, finished = 0;
  const std::size_t workers = std::min(count, static_cast<std::size_t>(std::max(1, threads)));
  parallel_for(workers, static_cast<int>(workers), [&](std::size_t) {
    for (std::size_t i; (i = next++) < count;) {
      try {
        answer(i, entrant(i));
      } catch (const FileError& error) {
        failed(i, error.findings);
      } catch (const InputError& error) {
        failed(i, Findings{{Severity::error, "", error.what()}});
      }
      const std::size_t so_far = ++finished;
      if (done) done(so_far);
    }
  });
}

}  // namespace loftwright
