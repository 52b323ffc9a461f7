#include <fmt/format.h>

#include <cmath>

#include "loftwright/report/advice_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

std::string claim_sentence(const Claim& c, Goal goal, UnitSystem units, std::string_view club) {
  const std::string_view unit_words = units == UnitSystem::yards ? "yards" : "metres";
  const auto distance = [&](double si) { return fmt::format("{} {}", number(Shown::gain, si, units), unit_words); };
  const auto degrees = [&](double si) { return number(Shown::angle, si, units); };
  const auto turns = [&](double si) { return number(Shown::spin, std::abs(si), units); };
  const std::string_view gets = goal == Goal::carry ? "carries" : "ends";
  const auto one_degree_more = [&](std::string_view of, bool further) {
    return fmt::format("One degree more {} starts the ball {} degrees {} with {} turns {}, and it {} {} {}.", of,
                       degrees(std::abs(c.launch)), c.launch >= 0.0 ? "higher" : "lower", turns(c.spin),
                       c.spin >= 0.0 ? "more" : "fewer", gets, distance(c.distance), further ? "further" : "shorter");
  };
  constexpr std::string_view kLoft = "Loft is how far the face leans back. ";
  constexpr std::string_view kAttack = "Attack is how steeply the head rises through the ball; below zero it falls. ";
  switch (c.kind) {
    case ClaimKind::now:
      return fmt::format(
          "Your ball now starts at {} degrees with {} backward turns a minute, and on average {} {} {} {}.",
          degrees(c.launch), turns(c.spin), goal == Goal::carry ? "carries" : "comes to rest after",
          number(Shown::distance, c.distance, units), unit_words, goal == Goal::carry ? "through the air" : "in all");
    case ClaimKind::too_low:
      return fmt::format(
          "That start is low: with the same spin a higher one would go further. Your best drive here starts "
          "{} degrees higher.",
          degrees(c.launch));
    case ClaimKind::too_high:
      return fmt::format(
          "That start is high: with the same spin a lower one would go further. Your best drive here starts "
          "{} degrees lower.",
          degrees(c.launch));
    case ClaimKind::too_little_spin:
      return fmt::format("More spin would help: from the same start, 100 turns more are worth {}.",
                         distance(c.distance));
    case ClaimKind::too_much_spin:
      return fmt::format("Less spin would help: from the same start, 100 turns fewer are worth {}.",
                         distance(c.distance));
    case ClaimKind::loft_helps: return std::string(kLoft) + one_degree_more("loft", true);
    case ClaimKind::loft_hurts: return std::string(kLoft) + one_degree_more("loft", false);
    case ClaimKind::up_helps: return std::string(kAttack) + one_degree_more("upward", true);
    case ClaimKind::up_hurts: return std::string(kAttack) + one_degree_more("upward", false);
    case ClaimKind::loft_gain:
      return fmt::format("{} of {} degrees alone buys {}.", club, degrees(c.loft), distance(c.distance));
    case ClaimKind::loft_no_gain:
      return fmt::format("No other driver on offer buys a {} by itself.", unit_words.substr(0, unit_words.size() - 1));
    case ClaimKind::technique_gain:
      return fmt::format("An attack of {} degrees with your own driver buys {}.",
                         number(Shown::angle, c.attack, units, Sign::always), distance(c.distance));
    case ClaimKind::technique_no_gain:
      return fmt::format("No other attack within your reach buys a {} by itself.",
                         unit_words.substr(0, unit_words.size() - 1));
    case ClaimKind::both_gain:
      return fmt::format("Together, {} degrees of loft and {} of attack buy {}.", degrees(c.loft),
                         number(Shown::angle, c.attack, units, Sign::always), distance(c.distance));
    case ClaimKind::sure:
      return fmt::format(
          "Of ten drives with {} degrees of loft and {} of attack, {} further than before; eight of ten gain "
          "between {} and {} {}.",
          degrees(c.loft), number(Shown::angle, c.attack, units, Sign::always), of_ten_go(c.share),
          number(Shown::distance, c.low, units), number(Shown::distance, c.high, units), unit_words);
  }
  return "";
}

std::vector<std::string> explanation(const Advice& advice, UnitSystem units) {
  std::vector<std::string> sentences;
  const auto& fit = advice.at(StrategyKind::loft_only).fit;
  const std::string_view club = fit && fit->has_sleeve ? "A loft" : "A driver";
  for (const Claim& c : explain(advice)) sentences.push_back(claim_sentence(c, advice.goal, units, club));
  return sentences;
}

}  // namespace loftwright
