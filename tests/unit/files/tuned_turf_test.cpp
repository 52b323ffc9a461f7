// The block "tuned" with a turf and, as older files have it, without.
#include <catch2/catch.hpp>

#include "loftwright/advise/advise.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/pupil_file.hpp"

using namespace loftwright;

namespace {

std::string file_with(const std::string& conditions, const std::string& more) {
  return R"({"format": "loftwright-pupil/1", "delivery": {"club_speed_mph": 84, "attack_deg": -2, "dynamic_loft_deg": 12},
 "club": {"loft_deg": 10.5},)" +
         conditions + R"(
 "tuned": {"restitution": 0.82, "restitution_sd": 0.01, "tangential_restitution": -0.1, "tangential_restitution_sd": 0.03,
  "drag_scale": 1.02, "drag_scale_sd": 0.02, "lift_scale": 0.97, "lift_scale_sd": 0.03)" +
         more + "}}\n";
}

std::optional<Pupil> pupil_from(const std::string& text, Findings& findings) {
  return read_pupil(text, "", Catalogue(), findings);
}

Pupil pupil_from(const std::string& text) {
  Findings findings;
  const auto pupil = pupil_from(text, findings);
  REQUIRE(pupil);
  return *pupil;
}

constexpr auto kTurf =
    R"(, "tilt_scale": 0.9, "tilt_scale_sd": 0.05, "tilt_speed_scale": 1.3, "tilt_speed_scale_sd": 0.3, "bounce_scale": 1.1, "bounce_scale_sd": 0.07, "rolling_scale": 0.8, "rolling_scale_sd": 0.2, "turf": "medium")";

}  // namespace

TEST_CASE("an older block, which knows nothing of the turf, leaves it as modelled", "[io]") {
  const Pupil p = pupil_from(file_with("", ""));
  REQUIRE(p.tuned);
  CHECK(p.tuned->value == ByTunable<double>{0.82, -0.1, 1.02, 0.97, 1.0, 1.0, 1.0, 1.0});
  const ErrorWidths untuned;
  CHECK(p.tuned->sd == ByTunable<double>{0.01, 0.03, 0.02, 0.03, untuned.turf_tilt / Turf{}.tilt,
                                         untuned.turf_tilt_speed, untuned.turf_restitution, untuned.turf_rolling});
  CHECK(p.tuned->turf.empty());
  CHECK_FALSE(has_tuned_turf(p));
  const Catalogue catalogue;
  const Turf modelled = catalogue.turf("medium"), taken = setting_for(p, catalogue).turf;
  CHECK(taken.restitution == modelled.restitution);
  CHECK(taken.rolling == modelled.rolling);
}

TEST_CASE("a tuned turf is played on where it was tuned, and nowhere else", "[io]") {
  const Catalogue catalogue;
  const Turf medium = catalogue.turf("medium"), firm = catalogue.turf("firm");
  const Pupil there = pupil_from(file_with("", kTurf));
  CHECK(has_tuned_turf(there));
  const Setting setting = setting_for(there, catalogue);
  CHECK(setting.turf.restitution == Approx(1.1 * medium.restitution));
  CHECK(setting.turf.rolling == Approx(0.8 * medium.rolling));
  CHECK(setting.turf.tilt == Approx(0.9 * medium.tilt));
  CHECK(setting.turf.tilt_speed == Approx(1.3 * medium.tilt_speed));
  CHECK(setting.turf.grass == medium.grass);
  CHECK(setting.turf.width == medium.width);
  CHECK(setting.drag_scale == 1.02);
  CHECK(setting.tuned == Tuned::turf_too);

  const Pupil away = pupil_from(file_with(R"("conditions": {"turf": "firm"},)", kTurf));
  CHECK_FALSE(has_tuned_turf(away));
  const Setting elsewhere = setting_for(away, catalogue);
  CHECK(elsewhere.turf.restitution == firm.restitution);
  CHECK(elsewhere.turf.rolling == firm.rolling);
  CHECK(elsewhere.drag_scale == 1.02);
  CHECK(elsewhere.tuned == Tuned::another_turf);
}

TEST_CASE("eight values are written, and read again, and the turf is named when a run was measured", "[io]") {
  Tuning tuning{{0.81, -0.15, 1.03, 0.95, 0.9, 1.1, 1.2, 0.7},
                {0.009, 0.03, 0.02, 0.03, 0.1, 0.3, 0.1, 0.15},
                {{0, 1, 0.1}, {4, 5, -0.62}},
                24,
                "medium"};
  const std::string text = file_with("", "");
  const Pupil with = pupil_from(with_tuned(text, tuning));
  CHECK(with.tuned->value == tuning.value);
  CHECK(with.tuned->sd == tuning.sd);
  CHECK(with.tuned->turf == "medium");
  REQUIRE(with.tuned->correlations.size() == 2);
  CHECK(with.tuned->correlations[1].value == Approx(-0.62));
  CHECK_THAT(tuned_block(file_with(R"("conditions": {"turf": "soft"},)", ""), tuning),
             Catch::Contains(R"("turf": "soft")"));

  for (const Tunable t : kAllOf<Tunable>) tuning.value[t] = is_of_turf(t) ? 1.0 : tuning.value[t];
  tuning.turf.clear();
  const std::string without = with_tuned(text, tuning);
  CHECK_THAT(without, !Catch::Contains("\"turf\"") && Catch::Contains("\"bounce_scale\": 1.0"));
  CHECK_FALSE(has_tuned_turf(pupil_from(without)));
}

TEST_CASE("a scale of the turf out of range, or of no turf, is a mistake", "[io]") {
  const auto said = [](const std::string& more) {
    Findings findings;
    pupil_from(file_with("", more), findings);
    std::string all;
    for (const Finding& f : findings) all += f.place + " " + f.message + "\n";
    return all;
  };
  CHECK_THAT(said(R"(, "bounce_scale": 5, "turf": "medium")"), Catch::Contains("/tuned/bounce_scale"));
  CHECK_THAT(said(R"(, "rolling_scale_sd": -1, "turf": "medium")"), Catch::Contains("/tuned/rolling_scale_sd"));
  CHECK_THAT(said(R"(, "bounce_scale": 1.1)"), Catch::Contains("/tuned/turf"));
  CHECK(said(R"(, "bounce_scale": 1.0)").find("/tuned") == std::string::npos);
}
