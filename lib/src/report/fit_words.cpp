// The sleeve as an instruction: which head, how it is set, and what that makes of loft, face and direction.
#include <fmt/format.h>

#include <cmath>

#include "loftwright/report/words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

// Heads with named settings have the one without a name, as marked; others any turn of a range.
bool is_marked(const ClubFit& fit) { return fit.setting.empty() && fit.loft == fit.head_loft; }

// "face 0.7 deg more closed"
std::string face_words(double face) {
  if (reads_as_zero(Shown::angle, face, UnitSystem::yards)) return "face as it is";
  return fmt::format("face {} more {}", degrees(std::abs(face)), face > 0.0 ? "open" : "closed");
}

std::string made_words(const ClubFit& fit) {
  return fmt::format("loft {}, {}", degrees(fit.loft), face_words(fit.face));
}

// "would give 6.0 of those 9.0 yd"
std::string share_words(double own, double bought, UnitSystem units) {
  const auto is_more = [&](double gain) { return gain > 0.0 && !reads_as_zero(Shown::gain, gain, units); };
  if (is_more(bought) && !is_more(bought - own)) return "would give as much";
  if (is_more(bought) && is_more(own))
    return fmt::format("would give {} of those {}", number(Shown::gain, own, units),
                       quantity(Shown::gain, bought, units));
  const auto does = [&](double gain) {
    return fmt::format("{} {}", is_more(-gain) ? "cost" : "add", quantity(Shown::gain, std::abs(gain), units));
  };
  return fmt::format("would {} where the other driver would {}", does(own), does(bought));
}

}  // namespace

std::string head_words(const ClubFit& fit) {
  if (!fit.has_sleeve && !fit.in_hand) return fmt::format("a {} driver", degrees(fit.loft));
  const std::string head = fit.in_hand ? "the club in hand" : fmt::format("the {} head", degrees(fit.head_loft));
  const std::string from = fit.from.empty() ? "" : fmt::format(" from {}", fit.from);
  if (!fit.setting.empty())
    return fmt::format("{}, {}{} to {}", head, fit.in_hand ? "turned" : "set", from, fit.setting);
  if (is_marked(fit)) return from.empty() ? head + " as marked" : fmt::format("{}, turned{} to as marked", head, from);
  return fmt::format("{}, turned by {}", head, degrees(fit.loft - fit.head_loft, Sign::always));
}

std::string fit_words(const ClubFit& fit) {
  if (!fit.has_sleeve && !fit.in_hand) {
    const bool turns = !reads_as_zero(Shown::angle, fit.face, UnitSystem::yards);
    return turns ? fmt::format("{}: {}", head_words(fit), face_words(fit.face)) : head_words(fit);
  }
  return fmt::format("{}: {}", head_words(fit), made_words(fit));
}

std::string loft_words(double loft, const std::optional<ClubFit>& fit) {
  if (!fit || !fit->has_sleeve) return degrees(loft);
  return fmt::format("{} ({})", degrees(loft), head_words(*fit));
}

std::string setting_words(const ClubFit& fit, double loft_now) {
  const std::string head = head_words(fit);
  const std::string_view comma = head.find(',') == std::string::npos ? "" : ",";
  if (!reads_as_zero(Shown::angle, fit.loft - loft_now, UnitSystem::yards))
    return fmt::format("{}{} makes {} of loft instead of {}", head, comma, degrees(fit.loft), degrees(loft_now));
  return fmt::format("{}{} keeps {} of loft with the {}", head, comma, degrees(fit.loft), face_words(fit.face));
}

std::string club_words(const Strategy& s) {
  if (s.fit && s.fit->has_sleeve) return head_words(*s.fit);
  if (!s.fit && s.loft != s.club.nominal && !s.club.setting.empty())
    return fmt::format("the club in hand at {}", s.club.setting);
  return degrees(s.loft) + " driver";
}

std::string fit_sentence(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.fit) return "";
  const std::string now = side_words(as_is.average.side, units), then = side_words(s.average.side, units);
  return fmt::format("{}; the average drive comes to rest {}{}", fit_words(*s.fit), then,
                     now == then ? ", as now" : fmt::format(" instead of {}", now));
}

std::string own_turn_sentence(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.own_turn) return "";
  const OwnTurn& own = *s.own_turn;
  if (!own.feasible) return "no turn of the club in hand meets every limit";
  const bool swing = s.attack != as_is.attack;
  const std::string share = share_words(own.gain, s.gain, units);
  if (own.fit)
    return fmt::format("{} ({}), {}{}", head_words(*own.fit), made_words(*own.fit), swing ? "with that attack, " : "",
                       share);
  if (!swing) return "no turn of the club in hand adds anything";
  return fmt::format("the club in hand as it is set, with that attack, {}; no turn of it adds anything", share);
}

}  // namespace loftwright
