// Floating-point traps held off while this lives, for a caller who has them on (as our tests do): around lanes, which
// go on computing for drives that have landed, and around libraries that divide by zero or overflow on their way to a
// right answer. Everything else runs under traps. Flags raised meanwhile are forgotten.
#pragma once

#include <cfenv>

namespace loftwright {

class WithoutTraps {
 public:
  WithoutTraps() { std::feholdexcept(&before_); }
  ~WithoutTraps() { std::fesetenv(&before_); }
  WithoutTraps(const WithoutTraps&) = delete;
  WithoutTraps& operator=(const WithoutTraps&) = delete;

 private:
  std::fenv_t before_;
};

}  // namespace loftwright
