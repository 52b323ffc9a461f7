// How sure the advice is, in words: the odds, what they lean on, and what measuring more would be worth.
#include <fmt/format.h>

#include "loftwright/core/units.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

// How an assumption is named and its value told.
struct AssumptionName {
  std::string_view title;
  enum class Told { not_at_all, speed, angle, times, added, plain, speed_a_degree } told;
};

const AssumptionName& name_of(Assumption assumption) {
  using Told = AssumptionName::Told;
  static constexpr EnumArray<Assumption, AssumptionName> kNames{{{
      {"the measured club speed", Told::speed},
      {"the measured attack", Told::angle},
      {"the measured delivered loft", Told::angle},
      {"the measured path, face and strike point", Told::not_at_all},
      {"the ball's drag", Told::times},
      {"the ball's lift", Told::times},
      {"the spring of the face", Told::added},
      {"the grip of the face", Told::added},
      {"the bounce of the turf", Told::not_at_all},
      {"the roll on the turf", Told::not_at_all},
      {"how far loft follows a change of attack", Told::plain},
      {"the speed that a higher attack brings", Told::speed_a_degree},
  }}};
  return kNames[assumption];
}

// "-2.5 deg instead of -4.0 deg", "0.94 times the model's".
std::string other_value(const AssumptionName& name, double value, double taken, UnitSystem units) {
  using Told = AssumptionName::Told;
  const auto instead = [&](Shown what, double factor = 1.0) {
    return fmt::format("{} instead of {}", quantity(what, value * factor, units),
                       quantity(what, taken * factor, units));
  };
  switch (name.told) {
    case Told::not_at_all: return "";
    case Told::speed: return instead(Shown::speed);
    case Told::angle: return instead(Shown::angle);
    case Told::plain: return instead(Shown::factor);
    case Told::speed_a_degree: return instead(Shown::speed_cost, unit("deg").factor) + " a degree";
    case Told::times: return number(Shown::factor, value, units) + " times the model's";
    case Told::added: return number(Shown::coefficient, value, units, Sign::always) + " beside the model's";
  }
  return "";
}

}  // namespace

std::string_view measure_words(Measure measure) {
  switch (measure) {
    case Measure::ten_more_shots: return "ten more shots";
    case Measure::tuned_ball: return "a ball and head tuned to the player's shots";
    case Measure::trial_lesson: return "a trial lesson";
    case Measure::measured_run: return "the run on this turf";
  }
  return "";
}

std::vector<std::string> odds_sentences(const Advice& advice) {
  std::vector<std::string> out;
  if (!advice.confidence) return out;
  const auto beats = [&](StrategyKind better, StrategyKind other, const std::optional<double>& probability) {
    if (probability) {
      out.push_back(fmt::format("the average drive goes further with {} than with {}: {} sure", title_of(better),
                                title_of(other), probability_words(*probability)));
    }
  };
  beats(StrategyKind::technique_only, StrategyKind::loft_only, advice.confidence->technique_over_loft);
  beats(StrategyKind::both, StrategyKind::technique_only, advice.confidence->both_over_technique);
  beats(StrategyKind::both, StrategyKind::loft_only, advice.confidence->both_over_loft);
  return out;
}

std::vector<std::string> leaning_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  if (!advice.confidence) return out;
  constexpr std::size_t kNamed = 3;
  for (const Influence& i : advice.confidence->influences) {
    if (out.size() == kNamed) break;
    const AssumptionName& name = name_of(i.assumption);
    std::string turns;
    if (i.flips_at) {
      turns = fmt::format("; at {} the verdict would be '{}'", other_value(name, *i.flips_at, i.taken, units),
                          key_of(i.becomes));
    } else if (name.told != AssumptionName::Told::not_at_all) {
      turns = "; no likely value turns the verdict";
    }
    constexpr double kTold = 0.01;  // [-] less is no share
    if (i.first < kTold) continue;
    out.push_back(fmt::format("{}: {} of what is uncertain{}", name.title, probability_words(i.first), turns));
  }
  return out;
}

std::vector<std::string> measuring_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  if (!advice.confidence || !advice.feasible) return out;
  const auto add = [&](std::string_view what, double metres) {
    if (!reads_as_zero(Shown::gain, metres, units))
      out.push_back(fmt::format("{}: {}", what, quantity(Shown::gain, metres, units)));
  };
  const Measuring& m = advice.confidence->measuring;
  for (const Measure what : kAllOf<Measure>) add(measure_words(what), m.worth[what]);
  add("all there is to know", m.everything);
  if (out.empty()) out.emplace_back("nothing: no measurement would change the choice");
  return out;
}

}  // namespace loftwright
