// The tables of docs/accuracy.md that are computed: each row stands there as the program makes it today, and what the page
// says of a table is held here.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "best_loft.hpp"
#include "loftwright/io/catalogue.hpp"
#include "loftwright/io/pupil_file.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

void on_the_page(const std::string& row) {
  static const std::string page = read_text(std::string(LOFTWRIGHT_SOURCE_DIR) + "/docs/accuracy.md");
  INFO("docs/accuracy.md has no such row:\n" << row);
  CHECK(page.find("\n" + row + "\n") != std::string::npos);
}

Setting with_ball(const std::string& id) {
  Setting in = default_setting();
  const Catalogue::BallWithAero found = Catalogue().ball(id);
  in.ball = found.ball;
  in.aero = found.aero;
  return in;
}

AeroModel without_crisis(AeroModel model) {
  std::get<AeroCurve>(model.form).crisis.reset();
  return model;
}

AeroModel with_crisis_width(AeroModel model, double width) {
  std::get<AeroCurve>(model.form).crisis->width = width;
  return model;
}

// The least Reynolds number of a flight, from its right-hand side.
double least_reynolds(const Drive& drive, const Setting& in) {
  const FlightSetting setting{&in.ball, &in.aero, in.air, in.wind};
  const FlightEquation<double, AeroCurve> equation(drive.launch, setting, std::get<AeroCurve>(in.aero.form));
  const Vec3<double> v = drive.launch.ball_speed * equation.along();
  FlightState y{0.0, 0.0, 0.0, v.x, v.y, v.z, drive.launch.spin}, rate;
  double least = 1e9;
  constexpr int kMoments = 400;
  for (int i = 0; i < kMoments; ++i) {
    least = std::min(least, equation(y, rate).reynolds);
    y = march(equation, y, drive.flight.time / kMoments, 1);
  }
  return least;
}

}  // namespace

// US patent 6,916,255 B2, ballistic-range figures of four production balls, second-hand.
TEST_CASE("the balls beside a ballistic range", "[accuracy]") {
  struct Point {
    double reynolds, spin_ratio, drag_low, drag_high, lift_low, lift_high;
  };
  constexpr Point slow{7e4, 0.188, 0.274, 0.284, 0.209, 0.227}, fast{1.8e5, 0.110, 0.225, 0.228, 0.158, 0.179};
  const auto inside = [](double x, double low, double high) { return x >= low && x <= high; };
  const auto cell = [&](double x, double low, double high) {  // how far from the middle
    const double off = 2.0 * x / (low + high) - 1.0;
    return fmt::format("{:.3f}, {}", x, inside(x, low, high) ? "within" : fmt::format("{}{:.1f} %", off < 0.0 ? "−" : "+", 100.0 * std::abs(off)));
  };
  const auto row = [&](const std::string& name, const AeroModel& model) {
    std::string out = "| " + name + " |";
    for (const Point& p : {slow, fast}) {
      const auto c = std::visit([&](const auto& form) { return form.at(p.reynolds, p.spin_ratio); }, model.form);
      out += fmt::format(" {} | {} |", cell(c.drag, p.drag_low, p.drag_high), cell(c.lift, p.lift_low, p.lift_high));
    }
    on_the_page(out);
  };
  const Catalogue catalogue;
  for (const ModelInfo& info : catalogue.list(ModelKind::ball)) row("`" + info.id + "`", catalogue.ball(info.id).aero);

  const AeroModel model = catalogue.ball("ballistic-range").aero, plain = without_crisis(model);
  row("`ballistic-range` without its crisis", plain);
  const auto at = [](const AeroModel& m, const Point& p) { return std::get<AeroCurve>(m.form).at(p.reynolds, p.spin_ratio); };
  for (const Point& p : {slow, fast}) {
    INFO("Re " << p.reynolds);
    CHECK(inside(at(plain, p).drag, p.drag_low, p.drag_high));
    CHECK(inside(at(plain, p).lift, p.lift_low, p.lift_high));
  }
  CHECK(inside(at(model, fast).drag, fast.drag_low, fast.drag_high));
  CHECK(inside(at(model, fast).lift, fast.lift_low, fast.lift_high));
  // The crisis reaches up to the slower point: what the page and the file's note say. A narrower one does not.
  CHECK(at(model, slow).drag > slow.drag_high);
  CHECK(at(model, slow).lift < slow.lift_low);
  const AeroModel narrow = with_crisis_width(model, 2.5e3);
  CHECK(inside(at(narrow, slow).drag, slow.drag_low, slow.drag_high));
  CHECK(inside(at(narrow, slow).lift, slow.lift_low, slow.lift_high));
}

TEST_CASE("two opinions on the air of slow swings", "[accuracy]") {
  const Setting reference = with_ball("reference"), second = with_ball("ballistic-range");
  Setting plain = second;
  plain.aero = without_crisis(second.aero);
  const double hardly = 0.05;  // [deg, yd] print
  double before = 90.0;
  for (const double mph : {55.0, 60.0, 65.0, 70.0, 75.0}) {
    const auto best = [&](const Setting& in) { return best_loft(mph, 0.0, in, carry_of); };
    const double here = best(reference), there = best(second), without = best(plain);
    const Drive a = centred(mph, 0.0, here, reference), b = centred(mph, 0.0, there, second);
    const double kept = centred(mph, 0.0, here, second).flight.carry;
    on_the_page(fmt::format("| {:.0f} | {:.1f}° | {:.1f} | {:.2f}e4 | {:.1f}° | {:.1f} | {:.2f}e4 | {:.1f}° | {:.1f} |", mph, here, a.flight.carry / kYard,
                            1e-4 * least_reynolds(a, reference), there, b.flight.carry / kYard, 1e-4 * least_reynolds(b, second), without,
                            (b.flight.carry - kept) / kYard));
    INFO(mph << " mph: " << here << " and " << there << " deg, without the crisis " << without);
    CHECK(without - there < before);  // what the crisis takes off the best loft: less, the faster the swing
    before = without - there;
    CHECK(b.flight.carry < a.flight.carry);
    CHECK(b.flight.carry - kept < 1.3 * kYard);  // a flat optimum
  }
  // The page's words on 60 mph.
  Setting narrow = second, both = reference;
  narrow.aero = with_crisis_width(second.aero, 2.5e3);
  std::get<AeroCurve>(both.aero.form).crisis = std::get<AeroCurve>(second.aero.form).crisis;
  CHECK(std::abs(best_loft(60.0, 0.0, narrow, carry_of) - 23.7) < hardly);
  CHECK(std::abs(best_loft(60.0, 0.0, both, carry_of) - 21.6) < hardly);
}
