#include "loftwright/clinic/clinic.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <mutex>
#include <random>
#include <set>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Pupils that differ in everything, one of them beyond help: no loft and attack of hers has so much spin.
std::vector<Pupil> some_pupils() {
  std::mt19937 random(12);
  std::vector<Pupil> out;
  for (int i = 0; i < 5; ++i) out.push_back(random_pupil(random));
  out.push_back(plain_pupil());
  out.back().limits = {{Limited::spin, {8000 * kPi / 30.0, 9000 * kPi / 30.0}}};
  for (std::size_t i = 0; i < out.size(); ++i) out[i].name = "pupil " + std::to_string(i);
  return out;
}

EntrantSource from(const std::vector<Pupil>& pupils) {
  return [&pupils](std::size_t i) { return Entrant{pupils.at(i), default_setting(), static_cast<int>(i), ""}; };
}

AdviseOptions few_draws(int threads = 1) {
  AdviseOptions options;
  options.draws = 512;
  options.threads = threads;
  return options;
}

}  // namespace

TEST_CASE("each row is what advise says of that pupil alone") {
  const std::vector<Pupil> pupils = some_pupils();
  const auto results = clinic(pupils.size(), from(pupils), few_draws());
  REQUIRE(results.size() == pupils.size());
  for (std::size_t i = 0; i < pupils.size(); ++i) {
    CAPTURE(i);
    REQUIRE(results[i].row);
    const ClinicRow& row = *results[i].row;
    const Setting setting = default_setting();
    const Advice advice = advise(pupils[i], setting, few_draws());
    CHECK(row.name == pupils[i].name);
    CHECK(row.warnings == static_cast<int>(i));
    CHECK(row.feasible == advice.feasible);
    if (!advice.feasible) continue;
    const Strategy& s = advice.at(strategy_of(advice.verdict.leader));
    CHECK(row.lever == advice.verdict.lever);
    CHECK(row.leader == advice.verdict.leader);
    CHECK(row.certainty == advice.verdict.certainty);
    CHECK(row.measure_first == advice.verdict.measure_first);
    CHECK(row.loft == s.loft);
    CHECK(row.attack == s.attack);
    CHECK(row.gain == s.gain);
    CHECK(row.fairway_share == s.average.fairway_share);
    if (advice.verdict.leader != Lever::leave) {
      CHECK(row.gain_low == advice.confidence->at(s.kind)->gain.low);
      CHECK(row.gain_high == advice.confidence->at(s.kind)->gain.high);
    }
  }
  const ClinicRow& beyond = *results.back().row;
  CHECK_FALSE(beyond.feasible);
  REQUIRE(beyond.must_give.size() == 1);
  CHECK(beyond.must_give[0].quantity == Limited::spin);
}

TEST_CASE("the answers of a clinic are the same for any number of threads") {
  const std::vector<Pupil> pupils = some_pupils();
  const auto one = clinic(pupils.size(), from(pupils), few_draws(1));
  for (const int threads : {2, 3, 16}) {
    const auto many = clinic(pupils.size(), from(pupils), few_draws(threads));
    for (std::size_t i = 0; i < one.size(); ++i) {
      CHECK(many[i].row->gain == one[i].row->gain);
      CHECK(many[i].row->gain_low == one[i].row->gain_low);
      CHECK(many[i].row->loft == one[i].row->loft);
      CHECK(many[i].row->probability == one[i].row->probability);
    }
  }
}

TEST_CASE("a pupil that cannot be had stops no other") {
  const std::vector<Pupil> pupils = some_pupils();
  const EntrantSource source = from(pupils);
  const EntrantSource broken = [&](std::size_t i) -> Entrant {
    if (i == 1) throw FileError("x.json", {{Severity::warning, "/a", "odd"}, {Severity::error, "/b", "wrong"}});
    if (i == 2) throw InputError("gone");
    Entrant entrant = source(i);
    if (i == 3) entrant.pupil.club_loft = 99.0;  // what advise itself refuses
    return entrant;
  };
  std::set<std::size_t> told;
  std::atomic<std::size_t> done = 0;
  std::mutex mutex;
  ClinicWatch watch;
  watch.answered = [&](std::size_t i, const Entrant& e, const Advice& a) {
    const std::lock_guard lock(mutex);
    told.insert(i);
    CHECK(e.pupil.name == pupils[i].name);
    CHECK(a.strategies.values.size() == 4);
  };
  watch.done = [&](std::size_t so_far) { done = std::max(done.load(), so_far); };
  const auto results = clinic(pupils.size(), broken, few_draws(2), watch);
  CHECK(told == std::set<std::size_t>{0, 4, 5});
  CHECK(done == pupils.size());
  REQUIRE(results[1].findings.size() == 2);
  CHECK(results[1].findings[1].place == "/b");
  REQUIRE(results[2].findings.size() == 1);
  CHECK(results[2].findings[0].message == "gone");
  CHECK(results[2].findings[0].severity == Severity::error);
  CHECK_FALSE(results[3].row);
  CHECK(results[3].findings.size() == 1);
  for (const std::size_t i : {0, 4, 5}) CHECK(results[i].row);
}

TEST_CASE("what a row does not show is not computed, and changes no row") {
  const std::vector<Pupil> pupils = some_pupils();
  int whole = 0;
  ClinicWatch watch;
  watch.answered = [&](std::size_t, const Entrant&, const Advice& a) { whole += a.flights; };
  const auto with_pages = clinic(pupils.size(), from(pupils), few_draws(), watch);
  const auto without = clinic(pupils.size(), from(pupils), few_draws());
  for (std::size_t i = 0; i < pupils.size(); ++i) {
    CHECK(with_pages[i].row->gain == without[i].row->gain);
    CHECK(with_pages[i].row->loft == without[i].row->loft);
    CHECK(with_pages[i].row->lever == without[i].row->lever);
  }
  AdviseOptions short_answer = few_draws();
  short_answer.verdict_only = true;
  const Setting setting = default_setting();
  const Advice brief = advise(pupils[0], setting, short_answer), full = advise(pupils[0], setting, few_draws());
  CHECK(brief.trade.empty());
  CHECK_FALSE(brief.window);
  CHECK(brief.verdict.lever == full.verdict.lever);
  CHECK(brief.flights < full.flights);
}

TEST_CASE("nobody in a clinic is an answer too") { CHECK(clinic(0, from({}), few_draws(4)).empty()); }
