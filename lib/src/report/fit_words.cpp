// The sleeve as an instruction: which head, how it is set, and what that makes of loft, face and direction.
#include <fmt/format.h>

#include <cmath>

#include "loftwright/report/words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

bool is_turned(const ClubFit& fit) { return fit.loft != fit.head_loft || fit.face != 0.0; }

// "face 0.7 deg more closed"
std::string face_words(double face) {
  if (reads_as_zero(Shown::angle, face, UnitSystem::yards)) return "face as it is";
  return fmt::format("face {} more {}", degrees(std::abs(face)), face > 0.0 ? "open" : "closed");
}

}  // namespace

std::string head_words(const ClubFit& fit) {
  if (!fit.has_sleeve && !fit.in_hand) return fmt::format("a {} driver", degrees(fit.loft));
  const std::string head = fit.in_hand ? "the club in hand" : fmt::format("the {} head", degrees(fit.head_loft));
  const std::string_view turned = fit.in_hand ? "turned" : "set";
  if (!fit.setting.empty()) return fmt::format("{}, {} to {}", head, turned, fit.setting);
  if (!is_turned(fit)) return head + " as marked";
  return fmt::format("{}, turned by {}", head, degrees(fit.loft - fit.head_loft, Sign::always));
}

std::string fit_words(const ClubFit& fit) {
  if (!fit.has_sleeve && !fit.in_hand) return head_words(fit);
  return fmt::format("{}: loft {}, {}", head_words(fit), degrees(fit.loft), face_words(fit.face));
}

std::string loft_words(double loft, const std::optional<ClubFit>& fit) {
  if (!fit || !fit->has_sleeve) return degrees(loft);
  return fmt::format("{} ({}: {})", degrees(loft), head_words(*fit), face_words(fit->face));
}

std::string fit_sentence(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.fit) return "";
  const std::string now = side_words(as_is.average.side, units), then = side_words(s.average.side, units);
  return fmt::format("{}; the average drive comes to rest {}{}", fit_words(*s.fit), then,
                     now == then ? ", as now" : fmt::format(" instead of {}", now));
}

}  // namespace loftwright
