#include "loftwright/files/pupil_file.hpp"

#include <array>
#include <cmath>

#include "files/fields.hpp"
#include "files/json_values.hpp"
#include "files/pupil_reader.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

// Keys are those of key_of.
struct LimitKey {
  Limited quantity;
  Dimension dimension;
  Range range;
};
constexpr std::array kLimitKeys{
    LimitKey{Limited::spin_loft, Dimension::angle, {0.0, 90.0, "deg"}},
    LimitKey{Limited::launch, Dimension::angle, {-20.0, 80.0, "deg"}},
    LimitKey{Limited::spin, Dimension::spin, {0.0, 15000.0, "rpm"}},
    LimitKey{Limited::apex, Dimension::length, {0.0, 200.0, "m"}},
    LimitKey{Limited::landing_angle, Dimension::angle, {0.0, 90.0, "deg"}},
    LimitKey{Limited::side, Dimension::length, {-500.0, 500.0, "m"}},
    LimitKey{Limited::carry, Dimension::length, {0.0, 500.0, "m"}},
    LimitKey{Limited::face_to_path, Dimension::angle, {-60.0, 60.0, "deg"}},
};

void read_handed_and_goal(ObjectReader& top, PupilReading& r) {
  r.pupil.handed = read_handed(top, Need::optional).value_or(Handed::right);
  if (!top.has("handed")) r.assume("The hand was not given: a right-hander taken.");
  r.pupil.goal =
      top.word<Goal>("goal", {{"carry", Goal::carry}, {"total", Goal::total}}, Need::optional).value_or(Goal::carry);
  if (!top.has("goal")) r.assume("The goal was not given: carry taken.");
}

void read_ball(ObjectReader& top, PupilReading& r) {
  read_named(top, "ball", r.pupil.ball, r, [&](const std::string& name) { r.ball = r.catalogue.ball(name).ball; });
  if (!top.has("ball")) r.assume("The ball was not given: the model \"{}\" taken.", r.pupil.ball);
}

void read_limits(ObjectReader& limits, PupilReading& r) {
  for (const LimitKey& key : kLimitKeys) {
    const auto allowed =
        limits.interval(key_of(key.quantity), key.dimension, key.range, Ends::may_be_open, Need::optional);
    if (allowed) r.pupil.limits.push_back({key.quantity, allowed->si});
  }
}

// Weather reports give the pressure reduced to sea level; the ball feels the station's.
void check_pressure(ObjectReader& reader, const Quantity& altitude, const Quantity& pressure) {
  constexpr double kWeather = 0.06;  // [-] what weather alone makes of it (estimate)
  const double standard = standard_atmosphere(altitude.si).pressure;
  if (std::abs(pressure.si / standard - 1.0) <= kWeather) return;
  reader.warn(pressure.place,
              fmt::format("{} does not fit an altitude of {} (about {} there); give the station's pressure, not "
                          "the one reduced to sea level",
                          pressure.shown(), altitude.shown(), pressure.shown(standard)));
}

void assume_weather(ObjectReader& reader, PupilReading& r) {
  std::vector<std::string> taken;
  const auto absent = [&](std::string_view key, std::string_view value) {
    if (!reader.has(key)) taken.emplace_back(value);
  };
  if (!reader.has("pressure")) absent("altitude", "sea level");
  absent("temperature", "20 C");
  absent("humidity", "50 % humidity");
  absent("wind", "calm");
  absent("turf", "medium turf");
  if (!r.pupil.conditions.wind.calm()) {
    absent("wind_height", "wind measured at 10 m");
    absent("wind_profile", "a logarithmic wind profile");
  }
  if (!taken.empty()) r.assume("Conditions not given: {} taken.", listed(taken));
}

void read_weather(ObjectReader& reader, PupilReading& r) {
  Conditions& c = r.pupil.conditions;
  const auto weather = read_fields<Conditions>(reader, kWeatherFields, c);
  const auto pressure = reader.quantity("pressure", Dimension::pressure, kPressureRange, Need::optional);
  if (pressure) c.pressure = pressure->si;
  for (Field<Wind> field : kWindFields) {  // the speed first
    if (field.key == "wind_from" && !c.wind.calm()) field.need = Need::required;
    read_fields<Wind>(reader, std::span<const Field<Wind>>(&field, 1), c.wind);
  }
  c.wind.profile = read_wind_profile(reader, Need::optional).value_or(c.wind.profile);
  read_named(reader, "turf", c.turf, r, [&](const std::string& name) { r.catalogue.turf(name); });
  if (pressure && !weather.empty() && weather.front().first == "altitude") {
    check_pressure(reader, weather.front().second, *pressure);
  }
  assume_weather(reader, r);
}

void read_conditions(ObjectReader& top, PupilReading& r) {
  if (!top.object("conditions", Need::optional, [&](ObjectReader& reader) { read_weather(reader, r); }) &&
      !top.has("conditions")) {
    r.assume("Conditions were not given: sea level, 20 C, 50 % humidity, calm, medium turf taken.");
  }
}

void read_arc(ObjectReader& top, PupilReading& r) {
  bool plane_given = false, radius_given = false;
  top.object("arc", Need::optional, [&](ObjectReader& arc) {
    const auto plane = arc.quantity("plane", Dimension::angle, {20.0, 80.0, "deg"}, Need::optional);
    const auto radius = arc.quantity("radius", Dimension::length, {0.8, 2.5, "m"}, Need::optional);
    if (plane) r.pupil.arc.plane = plane->si;
    if (radius) r.pupil.arc.radius = radius->si;
    plane_given = arc.has("plane");
    radius_given = arc.has("radius");
  });
  std::vector<std::string> taken;
  if (!plane_given) taken.push_back(fmt::format("a plane of {:.4g} deg", r.pupil.arc.plane / kDegree));
  if (!radius_given) taken.push_back(fmt::format("a radius of {:.4g} m", r.pupil.arc.radius));
  if (!taken.empty()) r.assume("The arc was not given in full: {} taken for set-up targets (estimate).", listed(taken));
}

// What is wanted back for a change: one gain for driver and swing together, or each alone. Nothing is free.
void read_prices(ObjectReader& top, PupilReading& r) {
  Prices& p = r.pupil.prices;
  const auto worthwhile = top.quantity("worthwhile", Dimension::length, {0.0, kMostPrice, "m"}, Need::optional);
  if (worthwhile) p.driver = p.swing = std::max(kLeastPrice, worthwhile->si);
  bool driver = worthwhile.has_value(), swing = driver, sleeve = false;
  top.object("prices", Need::optional, [&](ObjectReader& prices) {
    const auto price = [&](std::string_view key, double& into, bool& given) {
      const auto found = prices.quantity(key, Dimension::length, {kLeastPrice, kMostPrice, "m"}, Need::optional);
      if (found) into = found->si;
      given = given || prices.has(key);
    };
    price("driver", p.driver, driver);
    price("sleeve", p.sleeve, sleeve);
    price("swing", p.swing, swing);
  });
  if (!driver || !swing) {
    r.assume("What a change must gain to be worth it was not given{}: 3 yd taken.", driver ? " for the swing" : swing ? " for a driver" : "");
  }
}

void read_sections(ObjectReader& top, PupilReading& r) {
  top.member("format", Need::required);  // looked at already
  r.pupil.name = top.text("name", Need::optional).value_or("");
  r.pupil.notes = top.text("notes", Need::optional).value_or("");
  r.pupil.for_pupil = top.text("for_pupil", Need::optional).value_or("");
  read_handed_and_goal(top, r);
  read_ball(top, r);
  read_clubs(top, r);
  read_swing(top, r);
  read_tuned(top, r);
  top.object("limits", Need::optional, [&](ObjectReader& limits) { read_limits(limits, r); });
  read_conditions(top, r);
  read_arc(top, r);
  read_prices(top, r);
  const auto fairway = top.quantity("fairway", Dimension::length, {5.0, 150.0, "m"}, Need::optional);
  if (fairway) r.pupil.fairway = fairway->si;
  if (!top.has("fairway")) r.assume("The fairway's width was not given: 35 yd taken (common practice).");
}

}  // namespace

std::string on_one_line(const InputError& error) {
  std::string text = error.what();
  for (std::size_t at = text.find("\n  "); at != std::string::npos; at = text.find("\n  ", at)) {
    text.replace(at, 3, text[at - 1] == ':' ? " " : "; ");
  }
  return text;
}

std::optional<Pupil> pupil_from(const Json& document, const fs::path& folder, const Catalogue& catalogue,
                                Findings& findings) {
  if (!format_is(document, kPupilFormat, findings)) return std::nullopt;
  PupilReading reading{folder, catalogue};
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& top) { read_sections(top, reading); });
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return std::move(reading.pupil);
}

std::optional<Pupil> read_pupil(std::string_view text, const fs::path& folder, const Catalogue& catalogue,
                                Findings& findings) {
  return read_document(text, findings, [&](const Json& document, Findings& mine) { return pupil_from(document, folder, catalogue, mine); });
}

std::string without_notes(std::string_view text) {
  OrderedJson document = OrderedJson::parse(text);
  if (!document.is_object() || document.erase("notes") == 0) return std::string(text);
  return document.dump(2, ' ', true) + "\n";  // marks that turn the direction of text stay escapes
}

Pupil load_pupil(const fs::path& file, const Catalogue& catalogue, Findings* warnings) {
  Findings findings;
  std::optional<Pupil> pupil = read_pupil(read_text(file), file.parent_path(), catalogue, findings);
  if (!pupil) throw FileError(file.string(), findings);
  if (warnings) warnings->insert(warnings->end(), findings.begin(), findings.end());
  return std::move(*pupil);
}

}  // namespace loftwright
