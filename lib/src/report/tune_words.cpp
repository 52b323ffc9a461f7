#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "report/tune_words.hpp"

namespace loftwright {

namespace {

// "restitution and drag" of the values for which `holds`.
template <class Holds>
std::string titles(const TuneResult& result, Holds holds) {
  std::vector<std::string> out;
  for (const TunedValue& v : result.values) {
    if (holds(v)) out.emplace_back(title_of(v.tunable));
  }
  return listed(out);
}

// What would have told of a value, for those that nothing tells of.
std::string_view source_of(Tunable tunable) {
  switch (tunable) {
    case Tunable::restitution: return "club speed, attack and delivered loft beside ball speed";
    case Tunable::tangential_restitution: return "club speed, attack and delivered loft beside spin";
    case Tunable::drag_scale:
    case Tunable::lift_scale: return "a carry, apex or descent angle";
    case Tunable::tilt_scale:
    case Tunable::tilt_speed_scale:
    case Tunable::bounce_scale:
    case Tunable::rolling_scale: return "a total beside carry";
  }
  return "";
}

std::string stays_sentence(const TunedValue& v) {
  const std::string title(title_of(v.tunable));
  if (v.removed == 0.0) {
    return fmt::format("No shot tells of {} (it takes {}): it stays exactly as modelled.", title, source_of(v.tunable));
  }
  return fmt::format(
      "These shots cannot tell {}: they take {:.1f} % off its uncertainty, less than {:.0f} %, so it stays near what "
      "is modelled.",
      title, 100.0 * v.removed, 100.0 * kLeastRemoved);
}

std::string run_sentence(const RunWorth& run, bool measured, UnitSystem units) {
  const auto length = [&](double si) { return quantity(Shown::gain, si, units); };
  const std::string known =
      fmt::format("What is not known of the turf leaves the run of the mean drive uncertain by {} (1 sd){}. ",
                  length(run.prior_sd), measured ? fmt::format(" as modelled, by {} as tuned", length(run.sd)) : "");
  if (run.to_halve) {
    return known + fmt::format("{} with both carry and total {} enough to halve what it is as modelled.",
                               how_many(*run.to_halve, "shot"), *run.to_halve == 1 ? "is" : "are");
  }
  return known + fmt::format(
                     "No number of shots with both carry and total halves what it is as modelled: what a device gets "
                     "wrong in every shot "
                     "alike (an estimate) leaves {:.0f} % of it.",
                     100.0 * run.least_share);
}

}  // namespace

std::string_view fitted_title(Reading reading) { return reading == Reading::total ? "run" : info(reading).title; }

std::string tune_verdict_sentence(const TuneResult& result) {
  const LeftOut& l = result.left_out;
  const std::string numbers = fmt::format(
      "a typical miss is {:.2f} times what errors of measurement and an unseen strike explain, and was {:.2f} times "
      "that untuned",
      l.tuned, l.untuned);
  switch (l.verdict) {
    case TuneVerdict::better:
      return fmt::format("On left-out shots the tuned model predicts better than the untuned one: {}.", numbers);
    case TuneVerdict::no_better:
      return fmt::format(
          "On left-out shots the tuned model predicts no better than the untuned one, as far as {} shots can tell: {}.",
          result.shots, numbers);
    case TuneVerdict::worse:
      return fmt::format("On left-out shots the tuned model predicts worse than the untuned one: {}. Do not use it.",
                         numbers);
  }
  return "";
}

std::vector<std::string> tune_sentences(const TuneResult& result, UnitSystem units) {
  std::vector<std::string> out;
  for (const TunedValue& v : result.values) {
    if (!v.identified && !(is_of_turf(v.tunable) && result.with_run == 0)) out.push_back(stays_sentence(v));
  }
  if (result.with_run == 0)
    out.emplace_back("No shot tells of the turf (it takes a total beside carry): it stays exactly as modelled.");
  const std::string held = titles(result, [](const TunedValue& v) { return v.at_end; });
  if (!held.empty()) {
    out.push_back(fmt::format(
        "The fit holds {} at an end of what it may reach ({:.0f} standard deviations): device, ball, head or weather "
        "are not what was taken.",
        held, kTuneReach));
  }
  if (!result.hidden.empty()) {
    std::vector<std::string> words;
    for (const Reading r : result.hidden) words.emplace_back(info(r).title);
    const std::string scatter =
        result.hidden_scale == 1.0
            ? "scattering as the pupil's spread says"
            : fmt::format(
                  "scattering {:.0f} % as wide as the pupil's spread says, for the shots scatter less than that "
                  "would make them",
                  100.0 * result.hidden_scale);
    out.push_back(
        fmt::format("Not measured in every shot: {}. There the pupil's mean is taken, {}.", listed(words), scatter));
  }
  for (const TunedReading& r : result.readings) {
    if (r.widened == 0.0) continue;
    out.push_back(fmt::format("The {} of single shots scatters more than its errors explain; {} more noise is taken.",
                              fitted_title(r.reading), quantity(difference_shown_as(r.reading), r.widened, units)));
  }
  if (result.odd > 0) {
    out.push_back(fmt::format(
        "{} of the shots stand{} far out from the others and count{} like any: see what leaving out outliers does.",
        result.odd, result.odd == 1 ? "s" : "", result.odd == 1 ? "s" : ""));
  }
  if (result.with_flight > 0) {
    out.emplace_back(
        "Drag and lift are only as real as the measured flight: a device that computes carry from its ball numbers "
        "tunes them to "
        "its own model.");
  }
  if (result.with_run > 0) {
    out.emplace_back(
        "Turf tilt, tilt speed, bounce and rolling are only as real as the measured total: a device that computes it "
        "tunes them to its own turf.");
  }
  if (result.run) out.push_back(run_sentence(*result.run, result.with_run > 0, units));
  if (result.chi_square_p < 0.01) {
    out.push_back(fmt::format(
        "Model and shots do not go together within the errors taken (chi-square {:.0f} over {} readings): device, "
        "ball, head or weather may not be what was taken.",
        result.chi_square, result.degrees_of_freedom));
  }
  return out;
}

}  // namespace loftwright
