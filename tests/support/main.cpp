#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>

#include "floating_point_traps.hpp"

namespace {

// Every test runs with traps on: whatever is no number, divides by zero or overflows ends the test where it happens.
struct TrapsInEveryTest : Catch::TestEventListenerBase {
  using TestEventListenerBase::TestEventListenerBase;
  void testCaseStarting(const Catch::TestCaseInfo&) override { loftwright::test::traps_on(); }
  void testCaseEnded(const Catch::TestCaseStats&) override { loftwright::test::traps_off(); }
};
CATCH_REGISTER_LISTENER(TrapsInEveryTest)

}  // namespace
