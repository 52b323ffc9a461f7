// The tables of docs/accuracy.md that are computed stand there as the program makes them today (LOFTWRIGHT_APPROVE=1
// writes them anew), and what the page says of them is held here.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <span>

#include "best_loft.hpp"
#include "folders.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The rows between "<!-- name -->", two lines of head, and "<!-- end -->".
void check_table(const std::string& name, const std::string& rows) {
  const std::string file = std::string(LOFTWRIGHT_SOURCE_DIR) + "/docs/accuracy.md";
  std::string page = read_text(file);
  std::size_t from = page.find("<!-- " + name + " -->\n");
  REQUIRE(from != std::string::npos);
  for (int line = 0; line < 3; ++line) from = page.find('\n', from) + 1;
  const std::size_t end = page.find("<!-- end -->", from);
  REQUIRE(end != std::string::npos);
  const bool approve = std::getenv("LOFTWRIGHT_APPROVE");
  INFO("docs/accuracy.md, table " << name << ": if the change is meant, run the test with LOFTWRIGHT_APPROVE=1");
  CHECK((approve || page.substr(from, end - from) == rows));
  if (approve) std::ofstream(file, std::ios::binary) << page.replace(from, end - from, rows);
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
    return fmt::format(
        "{:.3f}, {}", x,
        inside(x, low, high) ? "within" : fmt::format("{}{:.1f} %", off < 0.0 ? "−" : "+", 100.0 * std::abs(off)));
  };
  std::string rows;
  const auto row = [&](const std::string& name, const AeroModel& model) {
    rows += "| " + name + " |";
    for (const Point& p : {slow, fast}) {
      const auto c = std::visit([&](const auto& form) { return form.at(p.reynolds, p.spin_ratio); }, model.form);
      rows += fmt::format(" {} | {} |", cell(c.drag, p.drag_low, p.drag_high), cell(c.lift, p.lift_low, p.lift_high));
    }
    rows += "\n";
  };
  const Catalogue catalogue;
  for (const ModelInfo& info : catalogue.list(ModelKind::ball)) row("`" + info.id + "`", catalogue.ball(info.id).aero);

  const AeroModel model = catalogue.ball("ballistic-range").aero, plain = without_crisis(model);
  row("`ballistic-range` without its crisis", plain);
  check_table("balls", rows);
  const auto at = [](const AeroModel& m, const Point& p) {
    return std::get<AeroCurve>(m.form).at(p.reynolds, p.spin_ratio);
  };
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
  const double hardly = 0.05;  // [deg] print
  std::string rows;
  double before = 90.0;
  for (const double mph : {55.0, 60.0, 65.0, 70.0, 75.0}) {
    const auto best = [&](const Setting& in) { return best_loft(mph, 0.0, in, carry_of); };
    const double here = best(reference), there = best(second), without = best(plain);
    const Drive a = centred(mph, 0.0, here, reference), b = centred(mph, 0.0, there, second);
    const double kept = centred(mph, 0.0, here, second).flight.carry;
    rows +=
        fmt::format("| {:.0f} | {:.1f}° | {:.1f} | {:.2f}e4 | {:.1f}° | {:.1f} | {:.2f}e4 | {:.1f}° | {:.1f} |\n", mph,
                    here, a.flight.carry / kYard, 1e-4 * least_reynolds(a, reference), there, b.flight.carry / kYard,
                    1e-4 * least_reynolds(b, second), without, (b.flight.carry - kept) / kYard);
    INFO(mph << " mph: " << here << " and " << there << " deg, without the crisis " << without);
    CHECK(without - there < before);  // what the crisis takes off the best loft: less, the faster the swing
    before = without - there;
    CHECK(b.flight.carry < a.flight.carry);
    CHECK(b.flight.carry - kept < 1.3 * kYard);  // a flat optimum
  }
  check_table("slow swings", rows);
  // The page's words on 60 mph.
  Setting narrow = second, both = reference;
  narrow.aero = with_crisis_width(second.aero, 2.5e3);
  std::get<AeroCurve>(both.aero.form).crisis = std::get<AeroCurve>(second.aero.form).crisis;
  CHECK(std::abs(best_loft(60.0, 0.0, narrow, carry_of) - 23.7) < hardly);
  CHECK(std::abs(best_loft(60.0, 0.0, both, carry_of) - 21.6) < hardly);
}

namespace {

// Struck off the toe (+) or heel, otherwise square and level, 13 deg delivered.
Drive off_centre(double mph, double toe_mm, const Head& head, const HeadErrorOf<double>& error = {}) {
  Setting in = default_setting();
  in.head = head;
  ModelErrorOf<double> off;
  off.head = error;
  return drive_from(Delivery{mph * kMph, 0.0, 0.0, 0.0, 13.0 * kDeg, toe_mm * 1e-3, 0.0}, Handed::right, in,
                    kFlightTolerance, off);
}
double landing_side(const Drive& drive) { return drive.flight.side / kYard; }
double resting_side(const Drive& drive) { return drive.side_at_rest / kYard; }
std::string right(double yards) {
  return fmt::format("{}{:.1f}", yards < -0.05 ? "−" : yards > 0.05 ? "+" : "", std::abs(yards));
}

}  // namespace

TEST_CASE("strikes off the toe: where bulge and gear effect balance", "[accuracy]") {
  const Head modern = Catalogue().head("modern-driver"), measured = Catalogue().head("measured-2020");
  std::string rows;
  for (const double mph : {60.0, 70.0, 80.0, 90.0, 100.0, 110.0}) {
    const Drive a = off_centre(mph, 12.7, modern), b = off_centre(mph, 12.7, measured);
    const double straight = a.flight.carry / kYard * std::tan(a.launch.azimuth);
    rows += fmt::format("| {:.0f} | {} | {} | {} | {} | {} | {} |\n", mph, right(straight),
                        right(landing_side(a) - straight), right(landing_side(a)), right(resting_side(a)),
                        right(landing_side(b)), right(resting_side(b)));
  }
  check_table("toe", rows);
  // The direction it starts in and the tilt of its spin hardly depend on speed: 2.6 deg, -8.0 to -7.5 deg.
  const Launch slow = off_centre(60.0, 12.7, modern).launch, fast = off_centre(110.0, 12.7, modern).launch;
  INFO("start " << slow.azimuth / kDeg << " and " << fast.azimuth / kDeg << " deg, tilt " << slow.tilt / kDeg << " and "
                << fast.tilt / kDeg << " deg");
  CHECK(std::abs(fast.azimuth / slow.azimuth - 1.0) < 0.03);
  CHECK(std::abs(fast.tilt / slow.tilt - 1.0) < 0.15);
  // So there is one speed at which the curve brings it back, and there it brings every miss back.
  for (const double toe : {3.6, 6.0, 12.7, 20.0, 25.0}) {
    INFO(toe << " mm: " << landing_side(off_centre(80.0, toe, modern)) << ", "
             << landing_side(off_centre(100.0, toe, modern)) << ", " << landing_side(off_centre(115.0, toe, modern))
             << " yd");
    CHECK(landing_side(off_centre(80.0, toe, modern)) > 0.19 * toe);
    CHECK(std::abs(landing_side(off_centre(100.0, toe, modern))) < 0.04 * toe);
    CHECK(landing_side(off_centre(115.0, toe, modern)) < -0.2 * toe);
    CHECK(std::abs(landing_side(off_centre(80.0, toe, modern)) + landing_side(off_centre(80.0, -toe, modern))) < 1e-9);
  }
}

TEST_CASE("what another driver of the kind would do with a strike off the toe", "[accuracy]") {
  const Head modern = Catalogue().head("modern-driver");
  const HeadWidths w;
  std::string rows;
  for (const double mph : {70.0, 85.0, 100.0}) {
    std::string cells;
    double variance[2] = {0.0, 0.0};
    for (const int number : {0, 1, 2}) {
      const auto at = [&](double sd) {
        HeadErrorOf<double> error;
        if (number == 0) error.bulge = std::pow(1.0 + w.bulge, sd);
        if (number == 1) error.depth = sd * w.depth;
        if (number == 2) error.inertia_up = std::pow(1.0 + w.inertia_up, sd);
        return off_centre(mph, 12.0, modern, error);
      };
      const Drive more = at(1.0), less = at(-1.0);
      variance[0] += std::pow(0.5 * (landing_side(more) - landing_side(less)), 2);
      variance[1] += std::pow(0.5 * (resting_side(more) - resting_side(less)), 2);
      cells += fmt::format(" {:.1f} |", 0.5 * std::abs(resting_side(more) - resting_side(less)));
    }
    const Drive middle = off_centre(mph, 12.0, modern);
    rows += fmt::format("| {:.0f} |{} {} ± {:.1f} | {} ± {:.1f} |\n", mph, cells, right(landing_side(middle)),
                        std::sqrt(variance[0]), right(resting_side(middle)), std::sqrt(variance[1]));
    CHECK(std::sqrt(variance[1]) >
          0.5 * std::abs(resting_side(middle)));  // the doubt is of the size of what is computed
  }
  check_table("heads", rows);
}

namespace {

struct Weathered {
  const char* what;
  Conditions conditions;
  const char* common_practice;
};

std::vector<Weathered> weathers() {
  const auto wind = [](double mph, double from_deg) {
    Conditions c;
    c.wind = {mph * kMph, from_deg * kDeg};
    return c;
  };
  const auto at = [](double celsius, double altitude) {
    Conditions c;
    c.temperature = celsius + 273.15;
    c.altitude = altitude;
    return c;
  };
  return {{"5 mph ahead", wind(5.0, 0.0), "−5 %"},
          {"10 mph ahead", wind(10.0, 0.0), "−10 %"},
          {"20 mph ahead", wind(20.0, 0.0), "−20 %"},
          {"5 mph behind", wind(5.0, 180.0), "+2.5 %"},
          {"10 mph behind", wind(10.0, 180.0), "+5 %"},
          {"20 mph behind", wind(20.0, 180.0), "+10 %"},
          {"0 °C", at(0.0, 0.0), "−7 yd with the ball as cold"},
          {"10 °C", at(10.0, 0.0), "−4 yd with the ball as cold"},
          {"30 °C", at(30.0, 0.0), "+4 yd with the ball as warm"},
          {"300 m up", at(20.0, 300.0), "+1.1 %"},
          {"1000 m up", at(20.0, 1000.0), "+3.8 %"},
          {"2000 m up", at(20.0, 2000.0), "+7.6 %"}};
}

struct Golfer {
  double mph, loft_deg;
};

// Carry and total. [yd]
std::array<double, 2> yards(const Golfer& golfer, const Conditions& conditions) {
  Setting in = default_setting();
  in.air = air_from(conditions);
  in.wind = conditions.wind;
  const Drive drive = centred(golfer.mph, 0.0, golfer.loft_deg, in);
  return {drive.flight.carry / kYard, drive.total / kYard};
}

}  // namespace

// Common practice, from memory: a headwind costs more than a tailwind gives, some 1 % a mph against half of that; 2 yd
// for 10 F of air and ball together; 1.16 % for 1000 ft.
TEST_CASE("wind, temperature and altitude", "[accuracy]") {
  constexpr Golfer as_delivered[] = {{65.0, 14.0}, {85.0, 13.0}, {105.0, 12.0}},
                   at_best[] = {{65.0, 23.4}, {85.0, 18.9}, {105.0, 15.1}};
  const auto table = [](const std::string& name, std::span<const Golfer> golfers) {
    std::string rows = "| still air, 20 °C, sea level |";
    for (const Golfer& g : golfers) rows += fmt::format(" {:.1f} / {:.1f} |", yards(g, {})[0], yards(g, {})[1]);
    rows += " |\n";
    for (const Weathered& weather : weathers()) {
      rows += fmt::format("| {} |", weather.what);
      for (const Golfer& g : golfers) {
        const auto before = yards(g, {}), after = yards(g, weather.conditions);
        const double carry = after[0] - before[0], total = after[1] - before[1];
        rows += fmt::format(" {} / {}, {} % |", right(carry), right(total), right(100.0 * total / before[1]));
      }
      rows += fmt::format(" {} |\n", weather.common_practice);
    }
    check_table(name, rows);
  };
  table("weather", as_delivered);
  table("weather at best loft", at_best);

  const auto share = [](const Golfer& g, const char* what) {
    for (const Weathered& weather : weathers()) {
      if (std::string(what) == weather.what) return 100.0 * (yards(g, weather.conditions)[1] / yards(g, {})[1] - 1.0);
    }
    throw std::logic_error(what);
  };
  for (const Golfer& g : {as_delivered[0], as_delivered[1], as_delivered[2], at_best[0], at_best[1], at_best[2]}) {
    INFO(g.mph << " mph, " << g.loft_deg << " deg");
    CHECK(-share(g, "5 mph ahead") > share(g, "5 mph behind"));
    CHECK(-share(g, "10 mph ahead") > share(g, "10 mph behind"));
    CHECK(-share(g, "20 mph ahead") > share(g, "20 mph behind"));
    CHECK(share(g, "10 °C") < 0.0);
    CHECK(share(g, "300 m up") > 0.0);
    Conditions c;
    c.wind = {10.0 * kMph, 0.0, 10.0, WindProfile::uniform};
    CHECK(std::abs(100.0 * (yards(g, c)[1] / yards(g, {})[1] - 1.0) - share(g, "10 mph ahead")) <
          1.0);  // the same at every height
  }
  for (const Golfer& g : at_best) {
    INFO(g.mph << " mph, " << g.loft_deg << " deg");
    CHECK(std::abs(best_loft(g.mph, 0.0, default_setting(), carry_of) - g.loft_deg) < 0.06);
    CHECK(share(g, "10 mph ahead") == Approx(-10.0).margin(2.0));
    CHECK(share(g, "300 m up") == Approx(1.1).margin(0.6));
  }
  CHECK(yards(as_delivered[0], weathers()[1].conditions)[0] >
        yards(as_delivered[0], {})[0]);  // slow and low carries farther into the wind
}
