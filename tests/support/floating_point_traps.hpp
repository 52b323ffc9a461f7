// Traps that end a test at the operation that gives no number (invalid), divides by zero or overflows. Threads begun under
// traps have them too.
#pragma once

#include <cfenv>

namespace loftwright::test {

inline constexpr int kTrapped = FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW;

inline void traps_off() { fedisableexcept(kTrapped); }
inline void traps_on() {
  std::feclearexcept(FE_ALL_EXCEPT);
  feenableexcept(kTrapped);
}

// For a test that computes with infinities or no numbers on purpose.
class WithoutTraps {
 public:
  WithoutTraps() { traps_off(); }
  ~WithoutTraps() { traps_on(); }
  WithoutTraps(const WithoutTraps&) = delete;
  WithoutTraps& operator=(const WithoutTraps&) = delete;
};

}  // namespace loftwright::test
