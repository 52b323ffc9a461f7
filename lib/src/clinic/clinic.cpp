#include "loftwright/clinic/clinic.hpp"

#include "advise/reached.hpp"
#include "clinic/each.hpp"

namespace loftwright {

ClinicRow clinic_row(const Advice& advice, const Pupil& pupil) {
  ClinicRow row;
  row.name = pupil.name;
  row.goal = advice.goal;
  row.feasible = advice.feasible;
  row.fairway_share_now = advice.at(StrategyKind::as_is).average.fairway_share;
  if (!advice.feasible) {
    row.must_give = advice.at(StrategyKind::both).must_give;
    return row;
  }
  const Verdict& v = advice.verdict;
  const StrategyKind kind = strategy_of(v.leader);
  const Strategy& s = advice.at(kind);
  row.lever = v.lever;
  row.leader = v.leader;
  row.certainty = v.certainty;
  row.probability = v.probability;
  row.loft = s.loft;
  row.fit = s.fit;
  row.attack = s.attack;
  row.gain = s.gain;
  if (const auto& judged = advice.confidence ? advice.confidence->at(kind) : std::optional<StrategyConfidence>{}) {
    row.gain_low = judged->gain.low;
    row.gain_high = judged->gain.high;
  } else if (v.leader == Lever::leave && advice.confidence) {  // nothing changes, for certain
    row.gain_low = row.gain_high = 0.0;
  }
  row.fairway_share = s.average.fairway_share;
  row.measure_first = v.measure_first;
  row.reached_gain = reached_gain(advice);
  return row;
}

std::vector<ClinicResult> clinic(std::size_t count, const EntrantSource& entrant, const AdviseOptions& options,
                                 const ClinicWatch& watch) {
  AdviseOptions each = options;
  each.threads = threads_each(count, options.threads);
  if (!watch.answered) {
    each.verdict_only = true;
    each.second_air = nullptr;
  }
  std::vector<ClinicResult> out(count);
  each_entrant(
      count, entrant, options.threads, watch.done,
      [&](std::size_t i, const Entrant& e) {
        AdviseOptions own = options_for(e, each);
        if (e.reached) own.verdict_only = false;  // the trade says what the loft does alone
        Advice advice = advise(e.pupil, e.setting, own);
        advice.reached = e.reached;
        ClinicRow row = clinic_row(advice, e.pupil);
        row.warnings = e.warnings;
        row.taken = e.taken;
        if (watch.answered) watch.answered(i, e, advice);
        out[i].row = std::move(row);
      },
      [&](std::size_t i, const Findings& findings) {
        out[i] = {std::nullopt, findings};
      });
  return out;
}

}  // namespace loftwright
