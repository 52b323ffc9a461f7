#include "report/page/pictures.hpp"

#include <fmt/format.h>

#include "loftwright/report/advice_words.hpp"
#include "report/page/bars.hpp"

namespace loftwright {

std::vector<StrategyKind> advised(const Advice& advice) {
  switch (advice.verdict.lever) {
    case Lever::loft: return {StrategyKind::loft_only};
    case Lever::technique: return {StrategyKind::technique_only};
    case Lever::either:
      if (advice.verdict.leader == Lever::loft) return {StrategyKind::loft_only, StrategyKind::technique_only};
      return {StrategyKind::technique_only, StrategyKind::loft_only};
    case Lever::both:
    case Lever::leave: break;
  }
  return {StrategyKind::both};
}

std::vector<Strategy> drawn(const Advice& advice) {
  std::vector<Strategy> out;
  for (const Strategy& s : advice.strategies) {
    if (s.feasible || s.kind == StrategyKind::as_is) out.push_back(s);
  }
  return out;
}

std::string look_of(StrategyKind kind) { return fmt::format("s-{}", key_of(kind)); }

Mark mark_of(StrategyKind kind) {
  constexpr EnumArray<StrategyKind, Mark> kMarks{Mark::circle, Mark::square, Mark::triangle, Mark::diamond};
  return kMarks[kind];
}

std::string key_picture(StrategyKind kind) {
  Drawing key(fmt::format("key-{}", key_of(kind)), 34.0, 14.0, "", "");
  key.line({1.0, 7.0}, {33.0, 7.0}, look_of(kind) + " way");
  key.mark(mark_of(kind), {17.0, 7.0}, look_of(kind) + " mark");
  return key.ornament("key");
}

std::string gains_picture(const Advice& advice, UnitSystem units) {
  std::string told;
  std::vector<Bar> rows;
  for (const Strategy& s : advice.strategies) {
    if (s.kind == StrategyKind::as_is) continue;
    const auto judged = advice.confidence ? advice.confidence->at(s.kind) : std::nullopt;
    Bar bar{std::string(title_of(s.kind)), std::nullopt, std::nullopt, look_of(s.kind)};
    std::string words = "breaks a limit";
    if (s.feasible) {
      words = quantity(Shown::gain, s.gain, units, Sign::always);
      bar.value = s.gain;
    }
    if (s.feasible && judged) {
      words += fmt::format("  (8 in 10: {})", interval_numbers(judged->gain, units));
      bar.interval = {judged->gain.low, judged->gain.high};
    }
    bar.words += "  " + words;
    told += (told.empty() ? "" : "; ") + bar.words;
    rows.push_back(std::move(bar));
  }
  const Drawing d =
      bars("gains", fmt::format("What each change adds to {}", key_of(advice.goal)), told + ".", rows, units);
  return d.text() + (advice.confidence ? "<p class=\"note\">Bars: the average drive. Lines: between their ends its "
                                         "gain lies eight times in ten, as far as is known.</p>\n"
                                       : "");
}

}  // namespace loftwright
