#include <algorithm>
#include <cmath>

#include "files/fields.hpp"
#include "files/json_text.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace {

constexpr Range kLoftRange = about(Quantity::loft).allowed;
constexpr std::size_t kMostLofts = 100;

void read_own_head(ObjectReader& club, const Json& numbers, PupilReading& r) {
  r.head = r.catalogue.head(r.pupil.head);
  read_object(numbers, below(club.place(), "head"), club.findings(), [&](ObjectReader& reader) {
    const std::vector<std::string> absent = read_head_numbers(reader, Need::optional, *r.head);
    if (!absent.empty())
      r.tell(Datum::head, "Of the head, {} were not given: those of \"{}\" taken.", listed(absent), r.pupil.head);
  });
  r.pupil.head_numbers = r.head;
}

void read_club(ObjectReader& club, PupilReading& r) {
  const auto loft = club.quantity(Quantity::loft, Need::required);
  if (loft) {
    r.club_loft = loft;
    r.pupil.club_loft = loft->si;
    if (const Range& usual = about(Quantity::loft).usual; !holds(usual, loft->si)) {
      club.warn(loft->place, fmt::format("a driver of {} is unusual ({:g} to {:g} {} are usual)", loft->shown(),
                                         usual.low, usual.high, usual.unit));
    }
  }
  if (const auto setting = club.text("setting", Need::optional)) {
    r.pupil.club_setting = *setting;
    r.club_setting = below(club.place(), "setting");
  }
  const Json* head = club.member("head", Need::optional);
  if (head && head->is_object()) {
    read_own_head(club, *head, r);
  } else {
    read_named(club, "head", r.pupil.head, r, [&](const std::string& name) { r.head = r.catalogue.head(name); });
  }
  r.given.add(Datum::head, head != nullptr);
}

constexpr Range kTurn = about(Quantity::sleeve_turn).allowed;  // of loft or face
constexpr std::size_t kMostSettings = 24;
constexpr double kSameTurn = 1e-9;  // [rad] one angle may be typed in deg, another in rad

struct SleeveSetting {
  std::string name;
  double loft = 0.0;  // [rad] added to that marked
  double face = 0.0;  // [rad] opened
};

struct Sleeve {
  Interval turn;  // [rad] of loft
  double face_per_loft = 0.0;
  std::vector<SleeveSetting> settings;  // empty: every turn of the range
};

// Short, and nothing but what is seen: it stands within sentences.
std::optional<std::string> name_wrong(std::string_view name) {
  constexpr std::size_t kMostBytes = 24;
  if (name.empty()) return "is empty";
  if (name.size() > kMostBytes) return fmt::format("is too long: at most {} letters", kMostBytes);
  const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
  const bool unseen = std::any_of(name.begin(), name.end(), control) || without_direction_marks(name) != name;
  return unseen ? std::optional<std::string>("holds a character that is not seen") : std::nullopt;
}

std::optional<SleeveSetting> read_setting(ObjectReader& reader, const Sleeve& sleeve) {
  const auto name = reader.text("name", Need::required);
  const auto loft = reader.quantity("loft", Dimension::angle, kTurn, Need::required);
  const auto face = reader.quantity("face", Dimension::angle, kTurn, Need::optional);
  const auto wrong = name ? name_wrong(*name) : std::nullopt;
  if (wrong) reader.error(below(reader.place(), "name"), *wrong);
  if (loft && (loft->si < sleeve.turn.low - kSameTurn || loft->si > sleeve.turn.high + kSameTurn)) {
    reader.error(loft->place, fmt::format("{} lies outside the sleeve's range, {:.6g} to {:.6g} {}", loft->shown(),
                                          loft->unit->from_si(sleeve.turn.low), loft->unit->from_si(sleeve.turn.high),
                                          loft->unit->symbol));
  }
  if (!name || wrong || !loft) return std::nullopt;
  const double turned = face ? face->si : sleeve.face_per_loft * loft->si;
  if (!holds(kTurn, turned)) {
    reader.error(reader.place(), fmt::format("face_per_loft turns the face by {:.4g} deg; allowed: {:g} to {:g} deg",
                                             turned / kDegree, kTurn.low, kTurn.high));
  }
  return SleeveSetting{*name, loft->si, turned};
}

// Each name once. `faces`: every one of them says how it turns the face.
void read_settings(ObjectReader& reader, const Json& list, Sleeve& sleeve, bool& faces) {
  const std::string place = below(reader.place(), "settings");
  if (!list.is_array() || list.empty() || list.size() > kMostSettings) {
    reader.error(place, fmt::format("a list of 1 to {} settings is expected", kMostSettings));
    return;
  }
  for (std::size_t i = 0; i < list.size(); ++i) {
    read_object(list[i], below(place, i), reader.findings(), [&](ObjectReader& one) {
      const auto setting = read_setting(one, sleeve);
      faces = faces && one.has("face");
      if (!setting) return;
      const auto twice = [&](const SleeveSetting& s) { return s.name == setting->name; };
      if (std::any_of(sleeve.settings.begin(), sleeve.settings.end(), twice)) {
        one.error(below(one.place(), "name"), fmt::format("\"{}\" is the name of two settings", setting->name));
      } else {
        sleeve.settings.push_back(*setting);
      }
    });
  }
}

std::optional<Sleeve> read_sleeve(ObjectReader& top, PupilReading& r) {
  std::optional<Sleeve> sleeve;
  r.given.add(Datum::face_per_loft, !top.has("sleeve"));  // without one there is nothing to tell
  top.object("sleeve", Need::optional, [&](ObjectReader& reader) {
    const Json* settings = reader.member("settings", Need::optional);
    const auto turn =
        reader.interval("range", Dimension::angle, kTurn, Ends::closed, settings ? Need::optional : Need::required);
    const auto face = reader.number(Quantity::face_per_loft, Need::optional);
    bool faces = settings != nullptr;
    if (turn && (turn->si.low > 0.0 || turn->si.high < 0.0)) {
      reader.error(turn->place, "must hold 0, the sleeve as the loft is marked");
    } else if (turn || settings) {
      sleeve = Sleeve{turn ? turn->si : Interval{}, face.value_or(0.0), {}};
      if (settings) read_settings(reader, *settings, *sleeve, faces);
    }
    r.given.add(Datum::face_per_loft, faces || reader.has("face_per_loft"));
  });
  return sleeve;
}

void read_loft_range(ObjectReader& top, const ObjectReader::Found& offer, PupilReading& r) {
  read_object(*offer.value, offer.place, top.findings(), [&](ObjectReader& range) {
    const auto end = [&](std::string_view key) {
      const Json* value = range.member(key, Need::required);
      return value ? range.value_in(*value, below(offer.place, key), offer.unit, kLoftRange) : std::nullopt;
    };
    const std::optional<double> from = end("from"), to = end("to");
    if (!from || !to) return;
    if (*from > *to) {
      range.error(offer.place, fmt::format("the range is crossed: from {:.6g} is above to {:.6g}",
                                           offer.unit->from_si(*from), offer.unit->from_si(*to)));
      return;
    }
    r.pupil.lofts.push_back({*from, *to, *from});
  });
}

void read_loft_list(ObjectReader& top, const ObjectReader::Found& offer, PupilReading& r) {
  if (!offer.value->is_array()) {
    top.error(offer.place, "a list of lofts, or a range {\"from\": ..., \"to\": ...}, is expected");
    return;
  }
  if (offer.value->size() > kMostLofts) {
    top.error(offer.place, fmt::format("has {} lofts; allowed: at most {}", offer.value->size(), kMostLofts));
    return;
  }
  const auto lofts = top.values_in(*offer.value, offer.place, offer.unit, kLoftRange);
  for (const double loft : lofts.value_or(std::vector<double>{})) {
    const auto same = [&](const LoftChoice& c) { return std::abs(c.nominal - loft) <= kLoftsApart; };
    if (std::any_of(r.pupil.lofts.begin(), r.pupil.lofts.end(), same)) {
      top.warn(offer.place,
               fmt::format("{:.6g} {} stands twice in the list", offer.unit->from_si(loft), offer.unit->symbol));
    } else {
      r.pupil.lofts.push_back({loft, loft, loft});
    }
  }
}

// A choice for each setting, and the head as it is marked, whether a setting names that or not.
std::vector<LoftChoice> settings_of(const LoftChoice& head, const Sleeve& sleeve) {
  std::vector<LoftChoice> out{head};
  for (const SleeveSetting& s : sleeve.settings) {
    const bool as_marked = std::abs(s.loft) < kSameTurn && std::abs(s.face) < kSameTurn;
    if (as_marked && !out.front().setting.empty()) continue;
    if (!as_marked) out.push_back(head);
    LoftChoice& choice = as_marked ? out.front() : out.back();
    choice.setting = s.name;
    if (!as_marked) choice.low = choice.high = head.nominal + s.loft, choice.face = s.face;
  }
  return out;
}

void fit_sleeve(ObjectReader& top, const Sleeve& sleeve, PupilReading& r) {
  std::vector<LoftChoice> fitted;
  for (LoftChoice choice : r.pupil.lofts) {
    std::vector<LoftChoice> made{choice};
    if (choice.low == choice.high) {  // every loft of a range is there without turning anything
      choice.has_sleeve = true;
      if (sleeve.settings.empty()) {
        choice.low += sleeve.turn.low;
        choice.high += sleeve.turn.high;
        choice.face_per_loft = sleeve.face_per_loft;
        made = {choice};
      } else {
        made = settings_of(choice, sleeve);
      }
    }
    for (const LoftChoice& c : made) {
      if (const auto wrong = lofts_beyond(c)) top.error(below(top.place(), "sleeve"), *wrong);
    }
    fitted.insert(fitted.end(), made.begin(), made.end());
  }
  r.pupil.lofts = std::move(fitted);
}

// How the club in hand is set, where the file says: of what is read after it, its loft is the one played.
void set_club(ObjectReader& top, const std::optional<Sleeve>& sleeve, PupilReading& r) {
  const bool settings = sleeve && !sleeve->settings.empty();
  r.given.add(Datum::club_setting, !settings || r.club_setting.has_value());
  if (!r.club_setting) return;
  if (!settings) {
    // A list that is wrong has been told of.
    if (!sleeve || std::isfinite(sleeve->turn.low))
      top.error(*r.club_setting, "names a setting, and there is no sleeve with settings; give sleeve.settings");
    return;
  }
  const auto played = std::find_if(sleeve->settings.begin(), sleeve->settings.end(),
                                   [&](const SleeveSetting& s) { return s.name == r.pupil.club_setting; });
  if (played == sleeve->settings.end()) {
    std::vector<std::string> names;
    for (const SleeveSetting& s : sleeve->settings) names.push_back(in_quotes(s.name));
    top.error(*r.club_setting, fmt::format("the sleeve has no setting {}; there are: {}",
                                           in_quotes(r.pupil.club_setting), fmt::join(names, ", ")));
    return;
  }
  r.pupil.club_loft += played->loft;
  r.pupil.club_face = played->face;
  r.club_loft->si = r.pupil.club_loft;
}

void read_lofts(ObjectReader& top, PupilReading& r) {
  const std::optional<Sleeve> sleeve = read_sleeve(top, r);
  const auto offer = top.find("lofts_on_offer", Dimension::angle, Need::optional);
  if (offer && offer->value->is_object()) {
    read_loft_range(top, *offer, r);
  } else if (offer) {
    read_loft_list(top, *offer, r);
  }
  r.given.add(Datum::lofts, top.has("lofts_on_offer"));
  if (!r.club_loft) return;
  complete_lofts(r.pupil);
  if (sleeve && (std::isfinite(sleeve->turn.low) || !sleeve->settings.empty())) fit_sleeve(top, *sleeve, r);
  set_club(top, sleeve, r);
  std::stable_sort(r.pupil.lofts.begin(), r.pupil.lofts.end(), [](const LoftChoice& a, const LoftChoice& b) {
    return a.low != b.low ? a.low < b.low : a.high < b.high;
  });
}

}  // namespace

void read_clubs(ObjectReader& top, PupilReading& r) {
  top.object("club", Need::required, [&](ObjectReader& club) { read_club(club, r); });
  read_lofts(top, r);
}

}  // namespace loftwright
