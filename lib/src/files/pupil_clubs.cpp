#include <algorithm>
#include <cmath>

#include "files/fields.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace {

constexpr Range kLoftRange = about(Quantity::loft).allowed;
constexpr double kSameLoft = 0.01 * kDegree;  // [rad] closer than any loft is made
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
  const Json* head = club.member("head", Need::optional);
  if (head && head->is_object()) {
    read_own_head(club, *head, r);
  } else {
    read_named(club, "head", r.pupil.head, r, [&](const std::string& name) { r.head = r.catalogue.head(name); });
  }
  r.given.add(Datum::head, head != nullptr);
}

struct Sleeve {
  Interval turn;  // [rad] of loft
  double face_per_loft = 0.0;
};

std::optional<Sleeve> read_sleeve(ObjectReader& top, PupilReading& r) {
  std::optional<Sleeve> sleeve;
  r.given.add(Datum::face_per_loft, !top.has("sleeve"));  // without one there is nothing to tell
  top.object("sleeve", Need::optional, [&](ObjectReader& reader) {
    const auto turn =
        reader.interval("range", Dimension::angle, about(Quantity::sleeve_turn).allowed, Ends::closed, Need::required);
    const auto face = reader.number(Quantity::face_per_loft, Need::optional);
    r.given.add(Datum::face_per_loft, reader.has("face_per_loft"));
    if (turn && (turn->si.low > 0.0 || turn->si.high < 0.0)) {
      reader.error(turn->place, "must hold 0, the sleeve as the loft is marked");
    } else if (turn) {
      sleeve = Sleeve{turn->si, face.value_or(0.0)};
    }
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
    const auto same = [&](const LoftChoice& c) { return std::abs(c.nominal - loft) <= kSameLoft; };
    if (std::any_of(r.pupil.lofts.begin(), r.pupil.lofts.end(), same)) {
      top.warn(offer.place,
               fmt::format("{:.6g} {} stands twice in the list", offer.unit->from_si(loft), offer.unit->symbol));
    } else {
      r.pupil.lofts.push_back({loft, loft, loft});
    }
  }
}

void fit_sleeve(ObjectReader& top, const Sleeve& sleeve, PupilReading& r) {
  for (LoftChoice& choice : r.pupil.lofts) {
    if (choice.low < choice.high) continue;  // every loft of a range is there without turning anything
    choice.low += sleeve.turn.low;
    choice.high += sleeve.turn.high;
    choice.face_per_loft = sleeve.face_per_loft;
    if (const auto wrong = lofts_beyond(choice)) top.error(below(top.place(), "sleeve"), *wrong);
  }
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
  if (sleeve) fit_sleeve(top, *sleeve, r);
  std::sort(r.pupil.lofts.begin(), r.pupil.lofts.end(),
            [](const LoftChoice& a, const LoftChoice& b) { return a.low != b.low ? a.low < b.low : a.high < b.high; });
}

}  // namespace

void read_clubs(ObjectReader& top, PupilReading& r) {
  top.object("club", Need::required, [&](ObjectReader& club) { read_club(club, r); });
  read_lofts(top, r);
}

}  // namespace loftwright
