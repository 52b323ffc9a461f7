#include "loftwright/report/words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/text.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/units.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

// How far a run may be off: docs/model.md, section 5.
std::string run_words(UnitSystem units) {
  const auto yards = [&](double y) { return quantity(Shown::distance, y * unit("yd").factor, units); };
  return fmt::format("some {} either way for a steep landing, {} for a shallow one", yards(6.0), yards(13.0));
}

// "10.5 deg driver", "9.5 deg driver set to +1 (10.5 deg)".
std::string driver_in_hand(const Pupil& pupil) {
  const std::string marked = degrees(marked_loft(pupil)), played = degrees(pupil.club_loft);
  if (pupil.club_setting.empty()) return played + " driver";
  return fmt::format("{} driver set to {}{}", marked, pupil.club_setting,
                     marked == played ? "" : fmt::format(" ({})", played));
}

}  // namespace

std::string pupil_words(const Pupil& pupil) {
  return fmt::format("{}-handed, playing for {}", key_of(pupil.handed), key_of(pupil.goal));
}

std::string delivery_words(const Pupil& pupil, UnitSystem units) {
  const Delivery& d = pupil.delivery;
  std::string now =
      fmt::format("Now: {}, {} of club speed, attack {}, delivered loft {}, path {}, face {}", driver_in_hand(pupil),
                  quantity(Shown::speed, d.club_speed, units), degrees(d.attack, Sign::always), degrees(d.dynamic_loft),
                  degrees(d.path, Sign::always), degrees(d.face, Sign::always));
  std::vector<std::string> struck;
  const auto add = [&](double off, std::string_view way) {
    if (off != 0.0) struck.push_back(fmt::format("{} {}", quantity(Shown::on_face, std::abs(off), units), way));
  };
  add(d.toe, d.toe < 0.0 ? "to the heel" : "to the toe");
  add(d.high, d.high < 0.0 ? "low" : "high");
  if (!struck.empty()) now += ", struck " + listed(struck);
  return now + ".";
}

std::string side_words(double side, UnitSystem units) {
  if (reads_as_zero(Shown::distance, side, units)) return "on the target line";
  return quantity(Shown::distance, std::abs(side), units) + (side > 0.0 ? " right" : " left");
}

std::string low_point_words(double low_point, UnitSystem units) {
  if (reads_as_zero(Shown::at_address, low_point, units)) return "at the ball";
  return quantity(Shown::at_address, std::abs(low_point), units) +
         (low_point > 0.0 ? " ahead of the ball" : " behind the ball");
}

std::string limit_words(Limited quantity, const Interval& allowed, UnitSystem units) {
  const std::string_view title = title_of(quantity);
  const auto end = [&](double si) { return loftwright::quantity(shown_as(quantity), si, units); };
  const bool low = std::isfinite(allowed.low), high = std::isfinite(allowed.high);
  if (low && high) return fmt::format("{} between {} and {}", title, end(allowed.low), end(allowed.high));
  if (low) return fmt::format("{} at least {}", title, end(allowed.low));
  if (high) return fmt::format("{} at most {}", title, end(allowed.high));
  return fmt::format("{} free", title);
}

std::vector<std::string> drive_notes(const Drive& drive, const AeroModel& aero, UnitSystem units) {
  std::vector<std::string> out;
  if (drive.flight.end != FlightEnd::landed) {
    std::string how(sentence(drive.flight.end));
    how.front() = static_cast<char>(how.front() - 'a' + 'A');
    out.push_back(how + ".");
  }
  if (drive.sliding)
    out.emplace_back("The ball slid up the face all through impact: less spin than a grip would give.");
  if (drive.flight.outside_aero_range) {
    out.push_back(
        fmt::format("For part of the way the ball flew outside the data behind the air resistance model '{}' (Reynolds "
                    "number {:.3g} to {:.3g}, spin ratio {:.3g} to {:.3g}): the flight is less certain there.",
                    aero.id, aero.reynolds_low, aero.reynolds_high, aero.spin_ratio_low, aero.spin_ratio_high));
  }
  out.push_back("Run (bounce and roll) is the least certain part: " + run_words(units) + ".");
  return out;
}

std::vector<std::string> condition_notes(const Conditions& conditions) {
  constexpr double kCold =
      283.149;  // [K] 10 C, but for the rounding of what was typed in F (estimate: from there on players speak of it)
  if (conditions.temperature >= kCold) return {};
  return {
      "Below 10 C (50 F) a ball as cold as the air leaves the face slower and flies shorter than this: the ball's own "
      "temperature is not in "
      "the numbers."};
}

namespace {

std::string_view tuned_words(Tuned tuned) {
  switch (tuned) {
    case Tuned::nothing: return "";
    case Tuned::head_and_ball: return " Head and ball tuned to the player's shots.";
    case Tuned::turf_too: return " Head, ball and turf tuned to the player's shots.";
    case Tuned::another_turf:
      return " Head and ball tuned to the player's shots; the turf is not the one that was tuned.";
  }
  return "";
}

}  // namespace

std::string conditions_words(const Setting& setting, UnitSystem units) {
  const Conditions& c = setting.course.conditions;
  const std::string air = c.pressure ? fmt::format("{:.0f} hPa", unit("hPa").from_si(*c.pressure))
                                     : "altitude " + quantity(Shown::height, c.altitude, units);
  std::string wind = "calm";
  if (!c.wind.calm()) {
    const double bearing = std::remainder(c.wind.from, 2.0 * kPi);
    const auto near = [&](double of) { return std::abs(std::remainder(bearing - of, 2.0 * kPi)) < 1e-9; };
    const std::string from = near(0.0)         ? "ahead"
                             : near(kPi)       ? "behind"
                             : near(kPi / 2.0) ? "the right"
                             : near(-kPi / 2.0)
                                 ? "the left"
                                 : degrees(bearing, Sign::always) + " off the target line (right positive)";
    wind = fmt::format("wind {} from {}", quantity(Shown::speed, c.wind.speed, units), from);
  }
  std::string out =
      fmt::format("Ball {}, air resistance {}, turf {}; {}, {}, humidity {:.0f} %, {}.{}", setting.course.ball,
                  setting.aero.id, c.turf, air, quantity(Shown::temperature, c.temperature, units), 100.0 * c.humidity,
                  wind, tuned_words(setting.tuned));
  for (const std::string& note : condition_notes(c)) out += " " + note;
  return out;
}

std::vector<std::string> cautions(UnitSystem units) {
  return {"A new swing loads the back and the joints: build it up slowly. Pain means stop.",
          "A pupil with an illness, an injury or an operation behind them asks a doctor or physiotherapist first.",
          "Warm up, and swing only with clear space all around.",
          "A club used in competition must conform to the rules in force.",
          "The numbers are a model's: try before you buy. Run is their least certain part, " + run_words(units) + "."};
}

}  // namespace loftwright
