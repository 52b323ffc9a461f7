// What an academy's lessons gave, and what its pupils reached of such promises, beside one verdict or many.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "advise/reached.hpp"
#include "core/text.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/clinic_tables.hpp"
#include "report/parts.hpp"
#include "report/rack_tables.hpp"

namespace loftwright {

namespace {

// Who was given what: a sentence and the names.
class TakenFor {
 public:
  void add(const std::string& who, const std::vector<std::string>& sentences) {
    ++pupils_;
    for (const std::string& sentence : sentences) {
      const auto at =
          std::find_if(groups_.begin(), groups_.end(), [&](const auto& group) { return group.first == sentence; });
      (at == groups_.end() ? groups_.emplace_back(sentence, std::vector<std::string>{}) : *at).second.push_back(who);
    }
  }

  std::vector<std::string> sentences(const std::string& file) const {
    constexpr std::size_t kMostNames = 6;
    if (groups_.empty())
      return {fmt::format("{} pupil's file gives follow and speed cost: nothing of {} is taken for a verdict.",
                          pupils_ == 1 ? "The" : "Every", file)};
    std::vector<std::string> out;
    for (const auto& [sentence, names] : groups_) {
      out.push_back(sentence);
      if (names.size() == pupils_ && pupils_ > 1) out.back() += fmt::format(" So for all {}.", in_words(pupils_));
      if (names.size() < pupils_)
        out.back() += fmt::format(" So for {}; the other files give it.", listed_at_most(names, kMostNames));
    }
    return out;
  }

 private:
  std::size_t pupils_ = 0;
  std::vector<std::pair<std::string, std::vector<std::string>>> groups_;
};

// The gains of those whose swing is to change, as promised and as usually reached.
std::string gains_reached(const ClinicAnswer& answer, UnitSystem units) {
  double promised = 0.0, reached = 0.0;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    const auto& row = answer.results[i].row;
    if (!row || !row->reached_gain) continue;
    names.push_back(who(row->name, answer.folder.files[i]));
    promised += row->gain;
    reached += *row->reached_gain;
  }
  if (names.empty()) return "";
  const double count = static_cast<double>(names.size());
  const auto yards = [&](double metres) { return quantity(Shown::gain, metres / count, units, Sign::always); };
  return names.size() == 1
             ? fmt::format("{} would then gain {} rather than {}", names.front(), yards(reached), yards(promised))
             : fmt::format("the {} whose swing is to change would then gain {} on average rather than {}",
                           in_words(names.size()), yards(reached), yards(promised));
}

}  // namespace

std::vector<std::string> academy_sentences(const ClinicAnswer& answer, UnitSystem units) {
  if (!answer.academy) return {};
  TakenFor taken;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (const auto& row = answer.results[i].row) taken.add(who(row->name, answer.folder.files[i]), row->taken);
  }
  std::vector<std::string> out = taken.sentences(answer.academy->file);
  const auto share = reached_share_of(answer.academy->academy);
  if (const std::string gains = gains_reached(answer, units); share && !gains.empty()) {
    out.push_back(fmt::format("{}: {}. The verdicts weigh every swing as if it were learnt in full.",
                              reached_words(*share), gains));
  }
  return out;
}

std::vector<std::string> academy_sentences(const RackAnswer& answer) {
  if (!answer.academy) return {};
  TakenFor taken;
  for (const RackPupil& p : rack_pupils(answer)) taken.add(who(p.curve.name, p.file), p.curve.taken);
  return taken.sentences(answer.academy->file);
}

std::string reached_words(const ReachedShare& r) {
  return fmt::format(
      "Of what a change of swing was promised to gain your {} reached {:.0f} % (8 in 10: {:.0f} to {:.0f} %)",
      r.pupils == 1 ? "pupil" : fmt::format("{} pupils", r.pupils), 100.0 * r.share, 100.0 * r.low, 100.0 * r.high);
}

std::string reached_sentence(const Advice& advice, UnitSystem units) {
  const Lever leader = advice.verdict.leader;
  if (!advice.reached || !advice.feasible || (leader != Lever::technique && leader != Lever::both)) return "";
  std::string out = reached_words(*advice.reached);
  if (const std::optional<double> gain = reached_gain(advice)) {
    const auto yards = [&](double metres) { return quantity(Shown::gain, metres, units, Sign::always); };
    out += fmt::format(": {} would then gain {} rather than {}", leader == Lever::both ? "both together" : "this one",
                       yards(*gain), yards(advice.at(strategy_of(leader)).gain));
  }
  return out + ". The verdict weighs the swing as if it were learnt in full.";
}

}  // namespace loftwright
