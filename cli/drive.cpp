#include "drive.hpp"

#include <algorithm>
#include <array>

#include "layout.hpp"
#include "loftwright/report/words.hpp"

namespace loftwright::cli {

Course course_from(const Values& values, Course course) {
  const auto take = [&](std::string_view name, auto& into) {
    if (values.given(name)) into = values.quantity(name);
  };
  if (values.given("ball")) course.ball = values.text("ball");
  Conditions& c = course.conditions;
  if (values.given("turf")) c.turf = values.text("turf");
  if (values.given("altitude")) c.pressure.reset();
  take("altitude", c.altitude);
  take("pressure", c.pressure);
  take("temperature", c.temperature);
  take("humidity", c.humidity);
  take("wind", c.wind.speed);
  take("wind-from", c.wind.from);
  take("wind-height", c.wind.height);
  for (const WindProfile profile : {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power}) {
    if (values.given("wind-profile") && key_of(profile) == values.text("wind-profile")) c.wind.profile = profile;
  }
  return course;
}

bool course_given(const Values& values) {
  constexpr std::array<std::string_view, 7> kNames{"ball",        "turf",     "altitude", "pressure",
                                                   "temperature", "humidity", "wind"};
  return std::any_of(kNames.begin(), kNames.end(), [&](std::string_view name) { return values.given(name); });
}

Delivery delivery_from(const Values& values) {
  const Delivery delivery{values.quantity("club-speed"), values.quantity("attack"),       values.quantity("path"),
                          values.quantity("face"),       values.quantity("dynamic-loft"), values.quantity("toe"),
                          values.quantity("high")};
  validate(delivery);
  return delivery;
}

Handed handed_from(const Values& values) {
  return values.text("handed") == key_of(Handed::left) ? Handed::left : Handed::right;
}

const Drive& computed(const Drive& drive) {
  if (drive.flight.end == FlightEnd::not_finite) throw InputError(std::string(sentence(drive.flight.end)));
  return drive;
}

std::string drive_text(const Drive& drive, const Setting& setting, UnitSystem units) {
  const auto show = [&](Shown what, double si) { return quantity(what, si, units); };
  std::string out = section("Flight", table({{"carry", show(Shown::distance, drive.flight.carry)},
                                             {"apex", show(Shown::height, drive.flight.apex)},
                                             {"descent angle", show(Shown::angle, drive.flight.landing_angle)},
                                             {"landing speed", show(Shown::speed, drive.flight.landing_speed)},
                                             {"time in the air", show(Shown::time, drive.flight.time)},
                                             {"side at landing", side_words(drive.flight.side, units)}}));
  out += "\n";
  out += section("Run", table({{"bounce", show(Shown::distance, drive.run.bounce)},
                               {"roll", show(Shown::distance, drive.run.roll)},
                               {"total", show(Shown::distance, drive.total)},
                               {"side at rest", side_words(drive.side_at_rest, units)}}));
  out += "\n";
  out += wrapped(conditions_words(setting, units));
  for (const std::string& note : drive_notes(drive, setting.aero, units)) out += wrapped(note);
  return out;
}

}  // namespace loftwright::cli
