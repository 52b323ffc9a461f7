#include "report/shot_words.hpp"

#include <catch2/catch.hpp>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// A comparison of carry alone with this difference and interval, in yards.
Comparison compared(double difference, double low, double high, CompareVerdict verdict) {
  ComparedReading carry{};
  carry.reading = Reading::carry;
  carry.test.difference = difference * kYard;
  carry.test.low = low * kYard;
  carry.test.high = high * kYard;
  Comparison out;
  out.readings.push_back(carry);
  out.verdict = verdict;
  return out;
}

Change made(std::initializer_list<Estimate> shares_yd) {
  Change out{};
  auto share = out.shares.begin();
  for (const Estimate& e : shares_yd) *share++ = {e.value * kYard, e.low * kYard, e.high * kYard};
  for (auto& otherwise : out.shares_otherwise) {
    for (const Factor f : kAllOf<Factor>) otherwise[f] = out.shares[f].value;
  }
  return out;
}

std::string sentence(const Comparison& c, const std::optional<Change>& change = {},
                     UnitSystem units = UnitSystem::yards) {
  return verdict_sentence(c, {}, change, units);
}

}  // namespace

TEST_CASE("a verdict in one sentence") {
  CHECK(sentence(compared(8.3, 3.1, 13.5, CompareVerdict::gain)) ==
        "Carry grew by 8.3 yd (95 % interval +3.1 to +13.5 yd).");
  CHECK(sentence(compared(-8.3, -13.5, -3.1, CompareVerdict::loss)) ==
        "Carry fell by 8.3 yd (95 % interval -13.5 to -3.1 yd).");
  CHECK(sentence(compared(1.5, 0.4, 2.6, CompareVerdict::gain)) ==
        "Carry grew by 1.5 yd (95 % interval +0.4 to +2.6 yd); real, but smaller than the 3.0 yd that matter.");
  CHECK(sentence(compared(0.4, -1.9, 2.7, CompareVerdict::no_change)) ==
        "No difference that matters: carry changed by +0.4 yd (95 % interval -1.9 to +2.7 yd), and all of that "
        "interval is less than 3.0 yd.");
  CHECK(sentence(compared(10.0, 5.0, 15.0, CompareVerdict::gain), {}, UnitSystem::metres) ==
        "Carry grew by 9.1 m (95 % interval +4.6 to +13.7 m).");
  CHECK(sentence(Comparison{}) == "Nothing can be said: carry is not in both lists, twice each at least.");
}

TEST_CASE("no real difference yet says how many more shots would tell") {
  Comparison c = compared(4.0, -2.0, 10.0, CompareVerdict::not_yet);
  c.assumed_difference = 4.0 * kYard;
  const std::string begins = "No real difference yet: carry changed by +4.0 yd (95 % interval -2.0 to +10.0 yd). ";
  c.more_shots = MoreValues{30, 9};
  CHECK(sentence(c) == begins +
                           "About 30 more shots after, or 9 more shots on each side would show a difference of 4.0 yd "
                           "80 % of the time, if there is one.");
  c.more_shots = MoreValues{1, std::nullopt};
  CHECK(sentence(c) ==
        begins + "About 1 more shot after would show a difference of 4.0 yd 80 % of the time, if there is one.");
  c.more_shots = MoreValues{std::nullopt, 12};
  CHECK(sentence(c) ==
        begins +
            "About 12 more shots on each side would show a difference of 4.0 yd 80 % of the time, if there is one.");
  c.more_shots = MoreValues{};
  CHECK(sentence(c) == begins + "No number of shots worth hitting would show a difference of 4.0 yd.");
}

TEST_CASE("a verdict names the change that made most of it, where that is clear") {
  const Comparison c = compared(8.0, 3.0, 13.0, CompareVerdict::gain);
  CHECK(sentence(c, made({{1, 0, 2}, {6, 2, 10}, {1, -1, 3}})) ==
        "Carry grew by 8.0 yd (95 % interval +3.0 to +13.0 yd), most of it from the swing (+6.0 yd by the model).");
  const std::string bare = "Carry grew by 8.0 yd (95 % interval +3.0 to +13.0 yd).";
  CHECK(sentence(c, made({{3, 1, 5}, {3, 1, 5}, {2, 1, 3}})) == bare);           // no change has more than half
  CHECK(sentence(c, made({{0, 0, 0}, {6, -1, 13}, {2, 1, 3}})) == bare);         // half, but perhaps none
  CHECK(sentence(c, made({{0, 0, 0}, {-6, -9, -3}, {2, 1, 3}})) == bare);        // the other way
  CHECK(sentence(c, made({{0, 0, 0}, {28, 25, 31}, {-20, -23, -17}})) == bare);  // far more than all of it
  Change change = made({{1, 0, 2}, {6, 2, 10}, {1, -1, 3}});
  change.unexplained = Estimate{-6.1 * kYard, -9 * kYard, -3 * kYard};
  CHECK(sentence(c, change) == bare);  // what is not explained is more
  change.unexplained->value = 5.9 * kYard;
  CHECK(sentence(c, change) != bare);
  change.shares_otherwise.back()[Factor::swing] = -1 * kYard;
  CHECK(sentence(c, change) == bare);  // had loft followed otherwise, the swing would have done nothing
}

TEST_CASE("what goes together, in words") {
  ShotSummary summary;
  for (const Reading r : {Reading::attack, Reading::launch, Reading::spin}) {
    ReadingSummary one{};
    one.reading = r;
    one.summary.count = 30;
    summary.readings.push_back(one);
  }
  summary.correlations = {{1.0, 0.83, -0.7}, {0.83, 1.0, 0.2}, {-0.7, 0.2, 1.0}};
  CHECK(together_sentences(summary) == std::vector<std::string>{"attack and launch rise together (correlation +0.83)",
                                                                "as attack rises, spin falls (correlation -0.70)"});
  CHECK(together_sentences(summary, 1).size() == 1);
}

TEST_CASE("whether measurements agree, in one sentence") {
  CHECK(consistency_sentence({}).empty());
  ConsistencyRow launch{}, spin{};
  launch.reading = Reading::launch;
  spin.reading = Reading::spin;
  launch.agrees = spin.agrees = true;
  CHECK(
      consistency_sentence({{launch, spin}, {}}).starts_with("What was measured and what the model makes of it agree"));
  launch.agrees = spin.agrees = false;
  CHECK(consistency_sentence({{launch, spin}, {}})
            .starts_with("Measured launch and spin and the model are further apart"));
}
