#include "loftwright/files/pupil_file.hpp"

#include <array>
#include <cmath>

#include "files/fields.hpp"
#include "files/json_values.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

void read_handed_and_goal(ObjectReader& top, PupilReading& r) {
  r.pupil.handed = read_handed(top, Need::optional).value_or(Handed::right);
  r.pupil.goal =
      top.word<Goal>("goal", {{"carry", Goal::carry}, {"total", Goal::total}}, Need::optional).value_or(Goal::carry);
  r.given.add(Datum::handed, top.has("handed")).add(Datum::goal, top.has("goal"));
}

void read_ball(ObjectReader& top, PupilReading& r) {
  read_named(top, "ball", r.pupil.ball, r, [&](const std::string& name) { r.ball = r.catalogue.ball(name).ball; });
  r.given.add(Datum::ball, top.has("ball"));
}

void read_limits(ObjectReader& limits, PupilReading& r) {
  for (const LimitInfo& limit : kLimits) {
    const QuantityInfo& q = about(limit.quantity);
    const auto allowed = limits.interval(limit.key(), q.dimension, q.allowed, Ends::may_be_open, Need::optional);
    if (allowed) r.pupil.limits.push_back({limit.limited, allowed->si});
  }
}

// Weather reports give the pressure reduced to sea level; the ball feels the station's.
void check_pressure(ObjectReader& reader, const TypedQuantity& altitude, const TypedQuantity& pressure) {
  constexpr double kWeather = 0.06;  // [-] what weather alone makes of it (estimate)
  const double standard = standard_atmosphere(altitude.si).pressure;
  if (std::abs(pressure.si / standard - 1.0) <= kWeather) return;
  reader.warn(pressure.place,
              fmt::format("{} does not fit an altitude of {} (about {} there); give the station's pressure, not "
                          "the one reduced to sea level",
                          pressure.shown(), altitude.shown(), pressure.shown(standard)));
}

void read_weather(ObjectReader& reader, PupilReading& r) {
  Conditions& c = r.pupil.conditions;
  const auto weather = read_numbers(reader, "conditions", r);
  const auto pressure = reader.quantity(Quantity::pressure, Need::optional);
  if (pressure) c.pressure = pressure->si;
  const auto from = reader.quantity(Quantity::wind_from, c.wind.calm() ? Need::optional : Need::required);
  if (from) c.wind.from = from->si;
  c.wind.profile = read_wind_profile(reader, Need::optional).value_or(c.wind.profile);
  read_named(reader, "turf", c.turf, r, [&](const std::string& name) { r.catalogue.turf(name); });
  for (const auto& [datum, altitude] : weather) {
    if (datum == Datum::altitude && pressure) check_pressure(reader, altitude, *pressure);
  }
  r.given.add(Datum::altitude, reader.has("pressure"))
      .add(Datum::turf, reader.has("turf"))
      .add(Datum::wind_profile, reader.has("wind_profile"));
}

void read_conditions(ObjectReader& top, PupilReading& r) {
  top.object("conditions", Need::optional, [&](ObjectReader& reader) { read_weather(reader, r); });
  r.given.add(Datum::conditions, top.has("conditions"));
}

// What is wanted back for a change: one gain for driver and swing together, or each alone. Nothing is free.
void read_prices(ObjectReader& top, PupilReading& r) {
  Prices& p = r.pupil.prices;
  const auto worthwhile = top.quantity(Quantity::worthwhile, Need::optional);
  if (worthwhile) p.driver = p.swing = std::max(kLeastPrice, worthwhile->si);
  r.given.add(Datum::driver_price, worthwhile.has_value()).add(Datum::swing_price, worthwhile.has_value());
  top.object("prices", Need::optional, [&](ObjectReader& prices) {
    const auto price = [&](std::string_view key, double& into) {
      const auto found = prices.quantity(key, Dimension::length, about(Quantity::price).allowed, Need::optional);
      if (found) into = found->si;
    };
    price("driver", p.driver);
    price("sleeve", p.sleeve);
    price("swing", p.swing);
    r.given.add(Datum::driver_price, prices.has("driver")).add(Datum::swing_price, prices.has("swing"));
  });
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
  top.object("arc", Need::optional, [&](ObjectReader& arc) { read_numbers(arc, "arc", r); });
  read_prices(top, r);
  read_numbers(top, "", r);
}

// Of what was taken too, where the reach was left open.
void check_speed_within_reach(ObjectReader& top, const PupilReading& r) {
  if (!r.speed_per_attack || !r.delivery_known) return;
  for (std::string& wrong : speeds_beyond_reach(r.pupil, *r.speed_per_attack->unit))
    top.error(r.speed_per_attack->place, std::move(wrong));
}

}  // namespace

std::vector<std::pair<Datum, TypedQuantity>> read_numbers(ObjectReader& reader, std::string_view section,
                                                          PupilReading& r) {
  std::vector<std::pair<Datum, TypedQuantity>> read;
  for (const NumberDatum& d : kNumberData) {
    if (d.section != section) continue;
    if (is_bare(about(d.quantity))) {
      if (const auto value = reader.number(d.quantity, Need::optional)) d.of(r.pupil) = *value;
    } else if (const auto value = reader.quantity(d.quantity, Need::optional)) {
      d.of(r.pupil) = value->si;
      read.emplace_back(d.datum, *value);
    }
    r.given.add(d.datum, reader.has(about(d.quantity).key));
  }
  return read;
}

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
  read_object(document, "", mine, [&](ObjectReader& top) {
    read_sections(top, reading);
    complete(reading.pupil, reading.given, reading.told);
    check_speed_within_reach(top, reading);
  });
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return std::move(reading.pupil);
}

std::optional<Pupil> read_pupil(std::string_view text, const fs::path& folder, const Catalogue& catalogue,
                                Findings& findings) {
  return read_document(text, findings, [&](const Json& document, Findings& mine) {
    return pupil_from(document, folder, catalogue, mine);
  });
}

std::string without_notes(std::string_view text) {
  OrderedJson document = parsed(text);
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
