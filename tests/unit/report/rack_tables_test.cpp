// What is said of a rack: nothing that would sell a coach a club which serves nobody.
#include "report/rack_tables.hpp"

#include <catch2/catch.hpp>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

// Pupils by name, each with the yards that every loft adds to the club in hand.
struct Wants {
  std::string name;
  std::vector<double> yards;
};

RackAnswer answer_of(const std::vector<double>& lofts_deg, const std::vector<Wants>& pupils, int places) {
  RackAnswer out;
  std::vector<double> lofts;
  for (const double loft : lofts_deg) lofts.push_back(loft * kDeg);
  std::vector<LoftCurve> curves;
  for (const Wants& p : pupils) {
    LoftCurve curve;
    curve.name = p.name;
    curve.loft_in_hand = 10.5 * kDeg;
    curve.best_gain = -1000.0;
    for (std::size_t j = 0; j < p.yards.size(); ++j) {
      curve.gain.push_back(p.yards[j] * kYard);
      curve.usable.push_back(true);
      if (curve.gain.back() > curve.best_gain) curve.best_gain = curve.gain.back(), curve.best_loft = lofts[j];
    }
    out.folder.files.push_back(p.name + ".json");
    out.results.push_back({curve, {}});
    curves.push_back(curve);
  }
  out.rack = choose_rack(lofts, curves, places);
  return out;
}

std::string said(const RackAnswer& answer) {
  std::string out;
  for (const std::string& sentence : rack_sentences(answer, UnitSystem::yards)) out += sentence + "\n";
  return out;
}

}  // namespace

TEST_CASE("who plays further with the club in hand is named beside the rack") {
  const std::string both = said(answer_of({8.5, 10.5}, {{"Bess", {-12.0, -8.0}}, {"Jory", {1.0, 4.8}}}, 1));
  CHECK_THAT(both, Contains("Against the clubs in hand 1 of 2 gains with it, 2.4 yd a pupil on average, if the others "
                            "keep their own. Longer with the "
                            "club in hand than with any of the rack: Bess (-8.0 yd)."));
  CHECK_THAT(said(answer_of({8.5, 10.5}, {{"Ann", {-1.0, 0.0}}, {"Bob", {0.0, 0.0}}}, 1)),
             Contains("Against the clubs in hand nobody gains with it.\n"));
  CHECK_THAT(said(answer_of({8.5, 10.5}, {{"Ann", {1.0, 3.0}}}, 1)),
             Contains("Against the club in hand that is 3.0 yd more.\n"));
  CHECK_THAT(said(answer_of({8.5, 10.5}, {{"Ann", {-5.0, -3.0}}}, 1)),
             Contains("Against the club in hand that gains nothing. Longer with the club in hand than with any of the "
                      "rack: Ann (-3.0 yd)."));
}

TEST_CASE("a loft that nobody takes, and one that would save nothing, are not advertised") {
  const RackAnswer three =
      answer_of({7.5, 9.0, 11.0, 13.0}, {{"Ann", {0.0, 1.0, 5.0, 4.0}}, {"Bob", {0.0, 6.0, 2.0, 0.0}}}, 3);
  CHECK_THAT(said(three), Contains("a fourth would save nothing to speak of."));
  CHECK_THAT(said(three), Contains("Nobody takes 7.5 deg: the rack does as well without.\n"));
  const RackAnswer one = answer_of({9.0, 11.0}, {{"Ann", {1.0, 5.0}}, {"Bob", {6.0, 2.0}}}, 1);
  CHECK_THAT(said(one), Contains("a second, "));
  CHECK_THAT(said(one), !Contains("Nobody takes"));
}

TEST_CASE("of one loft nothing is chosen") {
  const std::string one = said(answer_of({13.5}, {{"Ann", {2.0}}}, 1));
  CHECK_THAT(one, Contains("One loft, 13.5 deg, is the whole list: there is nothing to choose."));
  CHECK_THAT(one, !Contains("from 13.5 to 13.5"));
}
