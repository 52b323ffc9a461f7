#include "report/rack_tables.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "loftwright/report/numbers.hpp"
#include "report/clinic_tables.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

double each(const RackAnswer& answer, double sum) { return sum / static_cast<double>(answer.rack.uses.size()); }

// "9, 10.5 and 12 deg"
std::string lofts_words(const RackAnswer& answer, const std::vector<std::size_t>& lofts) {
  std::vector<std::string> out;
  for (const std::size_t j : lofts) out.push_back(short_loft(answer.rack.lofts[j]));
  return listed(out) + " deg";
}

// "a fourth, 12 deg, would save each 0.2 yd on average": which, where it is worth naming.
std::string next_words(const RackAnswer& answer, UnitSystem units) {
  const Rack& r = answer.rack;
  const std::string which = ordinal_words(r.best.chosen.size() + 1);
  const double share = each(answer, r.next.front().saves);
  if (reads_as_zero(Shown::gain, share, units)) return fmt::format("a {} would save nothing to speak of", which);
  return fmt::format("a {}, {} deg, would save {}", which, short_loft(r.lofts[r.next.front().loft]),
                     r.uses.size() == 1 ? quantity(Shown::gain, share, units)
                                        : fmt::format("each {} on average", quantity(Shown::gain, share, units)));
}

// Lofts of the rack that nobody takes.
std::string idle_words(const RackAnswer& answer) {
  std::vector<std::size_t> idle;
  for (const std::size_t j : answer.rack.best.chosen) {
    const auto takes = [&](const RackUse& use) { return use.loft == j; };
    if (std::none_of(answer.rack.uses.begin(), answer.rack.uses.end(), takes)) idle.push_back(j);
  }
  return idle.empty() || idle.size() == answer.rack.best.chosen.size()
             ? ""
             : fmt::format("Nobody takes {}: the rack does as well without.", lofts_words(answer, idle));
}

constexpr double kLittle = 0.5 * 0.9144;  // [m] a pupil (estimate): half of what counts as a difference

// Longer with what they play than with anything in the rack, by more than a little; with what it would cost.
std::vector<std::string> better_with_own(const RackAnswer& answer, UnitSystem units) {
  std::vector<std::string> out;
  for (const RackPupil& p : rack_pupils(answer)) {
    if (p.use.loft && p.use.gain < -kLittle)
      out.push_back(fmt::format("{} ({})", who(p.curve.name, p.file), quantity(Shown::gain, p.use.gain, units)));
  }
  return out;
}

std::string against_own_sentence(const RackAnswer& answer, UnitSystem units) {
  constexpr std::size_t kMostNames = 6;
  const auto& uses = answer.rack.uses;
  double gain = 0.0;
  std::size_t gaining = 0;
  for (const RackUse& use : uses) {
    if (use.gain <= 0.0 || reads_as_zero(Shown::gain, use.gain, units)) continue;
    gain += use.gain;
    ++gaining;
  }
  const std::string size = quantity(Shown::gain, each(answer, gain), units);
  std::string out = uses.size() == 1 ? (gaining ? fmt::format("Against the club in hand that is {} more.", size)
                                                : "Against the club in hand that gains nothing.")
                    : gaining == 0
                        ? "Against the clubs in hand nobody gains with it."
                        : fmt::format("Against the clubs in hand {} of {} gain{} with it, {} a pupil on average{}.",
                                      gaining, uses.size(), gaining == 1 ? "s" : "", size,
                                      gaining < uses.size() ? ", if the others keep their own" : "");
  if (const auto own = better_with_own(answer, units); !own.empty())
    out += fmt::format(" Longer with the club in hand than with any of the rack: {}.", listed_at_most(own, kMostNames));
  return out;
}

std::string answer_sentence(const RackAnswer& answer, UnitSystem units) {
  const Rack& r = answer.rack;
  const std::size_t size = r.best.chosen.size(), pupils = r.uses.size();
  const bool one = size == 1, alone = pupils == 1;
  if (r.lofts.size() == 1)
    return fmt::format("One loft, {}, is the whole list: there is nothing to choose.",
                       lofts_words(answer, r.best.chosen));
  std::string out = fmt::format(
      "{} loft{}, {}, serve{} {}: {} {} against the best loft from {} to {} deg", capital(in_words(size)),
      one ? "" : "s", lofts_words(answer, r.best.chosen), one ? "s" : "",
      alone ? "this pupil" : fmt::format("these {} pupils", in_words(pupils)), alone ? "it loses" : "each loses",
      reads_as_zero(Shown::gain, each(answer, r.best.lost), units)
          ? "nothing to speak of"
          : quantity(Shown::gain, each(answer, r.best.lost), units) + (alone ? "" : " on average"),
      short_loft(r.lofts.front()), short_loft(r.lofts.back()));
  return out + (r.next.empty() ? ". That is the whole list." : "; " + next_words(answer, units) + ".");
}

// From how many lofts on no further one is worth much.
std::string enough_sentence(const RackAnswer& answer, UnitSystem units) {
  const auto& sizes = answer.rack.by_size;
  std::size_t enough = 1;
  for (std::size_t s = 1; s < sizes.size(); ++s) {
    if (each(answer, sizes[s - 1].lost - sizes[s].lost) >= kLittle) enough = s + 1;
  }
  if (enough >= sizes.size()) return "";
  return fmt::format("From {} {} on, one more saves each pupil less than {} on average.", in_words(enough),
                     plural(enough, "loft"), quantity(Shown::gain, kLittle, units));
}

}  // namespace

double lost_each(const RackAnswer& answer, std::size_t size) {
  return each(answer, answer.rack.by_size[size - 1].lost);
}

std::vector<RackPupil> rack_pupils(const RackAnswer& answer) {
  std::vector<RackPupil> out;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (answer.results[i].curve)
      out.push_back({*answer.results[i].curve, answer.rack.uses[out.size()], answer.folder.files[i]});
  }
  return out;
}

std::vector<std::string> rack_sentences(const RackAnswer& answer, UnitSystem units) {
  const Rack& r = answer.rack;
  std::vector<std::string> out{answer_sentence(answer, units)};
  std::vector<std::string> more;
  for (std::size_t n = 0; n < std::min<std::size_t>(3, r.next.size()); ++n) {
    if (reads_as_zero(Shown::gain, each(answer, r.next[n].saves), units)) break;
    more.push_back(fmt::format("{} deg ({})", short_loft(r.lofts[r.next[n].loft]),
                               quantity(Shown::gain, each(answer, r.next[n].saves), units)));
  }
  if (more.size() > 1) {
    out.push_back(fmt::format("To be added one after the other: {}; in brackets what each saves a pupil on average.",
                              listed(more)));
  }
  if (const std::string enough = enough_sentence(answer, units); !enough.empty()) out.push_back(enough);
  if (const std::string idle = idle_words(answer); !idle.empty()) out.push_back(idle);
  out.push_back(against_own_sentence(answer, units));
  return out;
}

std::vector<std::string> served_sentences(const RackAnswer& answer, UnitSystem units) {
  constexpr std::size_t kMostNames = 12;
  const std::vector<RackPupil> pupils = rack_pupils(answer);
  std::vector<std::string> out;
  for (const std::size_t j : answer.rack.best.chosen) {
    std::vector<std::string> names;
    double gain = 0.0;
    for (const RackPupil& p : pupils) {
      if (p.use.loft != j) continue;
      names.push_back(who(p.curve.name, p.file));
      gain += p.use.gain;
    }
    out.push_back(
        names.empty()
            ? fmt::format("{} deg: nobody.", short_loft(answer.rack.lofts[j]))
            : fmt::format("{} deg, {} on average over the club in hand, for {}: {}.", short_loft(answer.rack.lofts[j]),
                          quantity(Shown::gain, gain / static_cast<double>(names.size()), units, Sign::always),
                          in_words(names.size()), listed_at_most(names, kMostNames)));
  }
  std::vector<std::string> without, given_up;
  for (const RackPupil& p : pupils) {
    if (!p.use.loft) without.push_back(who(p.curve.name, p.file));
    if (p.curve.limits_given_up) given_up.push_back(who(p.curve.name, p.file));
  }
  if (!without.empty()) {
    out.push_back(fmt::format("Nothing in this rack keeps the limits of {}.", listed_at_most(without, kMostNames)));
  }
  if (!given_up.empty()) {
    out.push_back(fmt::format("No loft of the list keeps the limits of {}: reckoned without limits.",
                              listed_at_most(given_up, kMostNames)));
  }
  return out;
}

TextTable rack_size_table(const RackAnswer& answer, UnitSystem units) {
  const auto& sizes = answer.rack.by_size;
  const std::string fine(unit_shown(Shown::gain, units));
  TextTable table{"What each number of lofts loses", {}, 2, {}};
  table.rows = {{"lofts", "lost each", "one more saves", "which"}, {"", fine, fine, "deg"}};
  for (std::size_t s = 1; s <= sizes.size(); ++s) {
    const bool last = s == sizes.size();
    const double saves = last ? 0.0 : lost_each(answer, s) - lost_each(answer, s + 1);
    std::vector<std::string> which;
    for (const std::size_t j : sizes[s - 1].chosen) which.push_back(short_loft(answer.rack.lofts[j]));
    std::string all;
    for (const std::string& w : which) all += (all.empty() ? "" : " ") + w;
    table.rows.push_back({fmt::format("{}{}", s, s == answer.rack.best.chosen.size() ? " *" : ""),
                          number(Shown::gain, lost_each(answer, s), units),
                          last ? "-" : number(Shown::gain, saves, units), all});
    if (!last && s > answer.rack.best.chosen.size() && reads_as_zero(Shown::gain, saves, units)) break;
  }
  table.notes.push_back(
      "Lost: by the average drive against the loft that suits each best, a pupil on average. * as asked for. The best "
      "of each number: with another number other lofts may be in it.");
  return table;
}

TextTable rack_pupil_table(const RackAnswer& answer, UnitSystem units, std::size_t name_width) {
  const std::string fine(unit_shown(Shown::gain, units));
  TextTable table{"Each pupil", {}, 2, {}};
  table.rows = {{"", "in hand", "best", "gain", "rack", "gain", "lost"}, {"", "deg", "deg", fine, "deg", fine, fine}};
  for (const RackPupil& p : rack_pupils(answer)) {
    table.rows.push_back({cut_to(who(p.curve.name, p.file), name_width), short_loft(p.curve.loft_in_hand),
                          number(Shown::angle, p.curve.best_loft, units),
                          number(Shown::gain, p.curve.best_gain, units, Sign::always),
                          p.use.loft ? short_loft(answer.rack.lofts[*p.use.loft]) : "none",
                          p.use.loft ? number(Shown::gain, p.use.gain, units, Sign::always) : "-",
                          number(Shown::gain, p.use.lost, units)});
  }
  table.notes.push_back(
      "Gain: over the club in hand, with the same swing. Best: the loft that suits best, in the list or between.");
  return table;
}

std::vector<std::string> rack_notes(const RackAnswer& answer) {
  return {answer.swing == RackSwing::now
              ? "Reckoned with every swing as it was measured."
              : "Reckoned with the attack that 'clinic' advises for each, as if that were reached.",
          "All else, the head too, is as in the pupil's file; the face sits as on the club in hand. A loft that breaks "
          "a pupil's limit is not for that pupil."};
}

}  // namespace loftwright
