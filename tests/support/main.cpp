#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
#include <cfenv>

namespace {

// Every test runs with traps on: what gives no number, divides by zero or overflows ends it there and then. Threads
// begun meanwhile have them too. A test that asks for such things on purpose says loftwright::WithoutTraps. GCC only:
// clang 14 computes both sides of a choice ahead of it, a division by zero among them, unless told that somebody
// watches.
#ifdef __clang__
constexpr int kTrapped = 0;
#else
constexpr int kTrapped = FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW;
#endif
struct TrapsInEveryTest : Catch::TestEventListenerBase {
  using TestEventListenerBase::TestEventListenerBase;
  void testCaseStarting(const Catch::TestCaseInfo&) override {
    std::feclearexcept(FE_ALL_EXCEPT);
    feenableexcept(kTrapped);
  }
  void testCaseEnded(const Catch::TestCaseStats&) override { fedisableexcept(FE_ALL_EXCEPT); }
};
CATCH_REGISTER_LISTENER(TrapsInEveryTest)

}  // namespace
