#include "report/json_parts.hpp"

#include "loftwright/report/words.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

Json models_of(const Setting& s) {
  return {{"ball", s.course.ball},
          {"aero", s.aero.id},
          {"head", s.head_id.empty() ? "given in the pupil's file" : s.head_id},
          {"turf", s.course.conditions.turf}};
}

Json conditions_of(const Conditions& c, const Air& air) {
  Json out;
  if (c.pressure) {
    out["pressure_pa"] = in("Pa", *c.pressure);
  } else {
    out["altitude_m"] = in("m", c.altitude);
  }
  out["temperature_c"] = in("C", c.temperature);
  out["humidity_pct"] = in("%", c.humidity);
  out["air_density_kgpm3"] = in("", air.density);
  out["wind_mps"] = in("m/s", c.wind.speed);
  out["wind_from_deg"] = in("deg", c.wind.from);
  out["wind_height_m"] = in("m", c.wind.height);
  out["wind_profile"] = key_of(c.wind.profile);
  out["notes"] = condition_notes(c);
  return out;
}

}  // namespace

OrderedJson fit_of(const std::optional<ClubFit>& fit, const std::string& sentence) {
  if (!fit) return nullptr;
  return {{"head_loft_deg", in("deg", fit->head_loft)},
          {"setting", fit->setting.empty() ? Json(nullptr) : Json(fit->setting)},
          {"loft_deg", in("deg", fit->loft)},
          {"face_deg", in("deg", fit->face)},
          {"in_hand", fit->in_hand},
          {"turned_from", fit->from.empty() ? Json(nullptr) : Json(fit->from)},
          {"sentence", sentence}};
}

OrderedJson launch_of(const Launch& launch) {
  return {{"ball_speed_mps", in("m/s", launch.ball_speed)},
          {"launch_deg", in("deg", launch.launch)},
          {"azimuth_deg", in("deg", launch.azimuth)},
          {"spin_rpm", in("rpm", launch.spin)},
          {"tilt_deg", in("deg", launch.tilt)}};
}

OrderedJson flight_of(const Drive& drive) {
  return {{"carry_m", in("m", drive.flight.carry)},
          {"side_m", in("m", drive.flight.side)},
          {"apex_m", in("m", drive.flight.apex)},
          {"landing_deg", in("deg", drive.flight.landing_angle)},
          {"landing_speed_mps", in("m/s", drive.flight.landing_speed)},
          {"flight_s", in("s", drive.flight.time)},
          {"bounce_m", in("m", drive.run.bounce)},
          {"roll_m", in("m", drive.run.roll)},
          {"total_m", in("m", drive.total)},
          {"rest_side_m", in("m", drive.side_at_rest)},
          {"landing_spin_rpm", in("rpm", drive.flight.landing_spin)},
          {"end", key_of(drive.flight.end)},
          {"outside_aero_range", drive.flight.outside_aero_range}};
}

OrderedJson delivery_of(const Delivery& d) {
  return {{"club_speed_mps", in("m/s", d.club_speed)},
          {"attack_deg", in("deg", d.attack)},
          {"path_deg", in("deg", d.path)},
          {"face_deg", in("deg", d.face)},
          {"dynamic_loft_deg", in("deg", d.dynamic_loft)},
          {"toe_mm", in("mm", d.toe)},
          {"high_mm", in("mm", d.high)}};
}

void add_circumstances(Json& out, const Setting& setting) {
  out["models"] = models_of(setting);
  out["conditions"] = conditions_of(setting.course.conditions, setting.air);
}

Json club_loft_of(const std::optional<double>& loft) { return loft ? in("deg", *loft) : Json(nullptr); }

OrderedJson summary_of(Reading reading, const Summary& summary) {
  const ReadingInfo& about = info(reading);
  const auto spread = [&](double si) { return summary.has_spread() ? in(about.unit, si) : Json(nullptr); };
  return {{"reading", about.key},     {"unit", about.unit},
          {"count", summary.count},   {"mean", in(about.unit, summary.mean)},
          {"sd", spread(summary.sd)}, {"standard_error", spread(summary.standard_error)}};
}

OrderedJson reached_share_json(const ReachedShare& r) {
  return {{"share", in("", r.share)}, {"low", in("", r.low)}, {"high", in("", r.high)}, {"pupils", r.pupils}};
}

OrderedJson academy_of(const std::optional<NamedAcademy>& academy) {
  if (!academy) return nullptr;
  const auto reached = reached_share_of(academy->academy);
  return {{"file", academy->file}, {"reached", reached ? reached_share_json(*reached) : Json(nullptr)}};
}

OrderedJson keys_of(const std::vector<Reading>& readings) {
  Json out = Json::array();
  for (const Reading r : readings) out.push_back(info(r).key);
  return out;
}

OrderedJson set_aside_of(const ShotList& list) {
  Json out = Json::array();
  for (const SetAside& row : list.set_aside) {
    out.push_back({{"line", row.line}, {"cells", row.cells}, {"reason", row.reason}});
  }
  return out;
}

OrderedJson notes_of(const std::vector<Note>& notes) {
  Json out = Json::array();
  for (const Note& note : notes) {
    out.push_back({{"line", note.line ? Json(note.line) : Json(nullptr)}, {"message", note.message}});
  }
  return out;
}

}  // namespace loftwright
