#include "report/heads_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

std::string yards_words(double si, UnitSystem units) { return quantity(Shown::gain, si, units); }

std::string interval_words(double low, double high, UnitSystem units) {
  return fmt::format("{} to {}", number(Shown::gain, low, units, Sign::always),
                     quantity(Shown::gain, high, units, Sign::always));
}

constexpr std::size_t kFewShots = 5;  // [-] fewer hardly show a scatter (estimate)

const std::string& name_in(const HeadsAnswer& a, std::size_t head) { return a.heads[head].name; }

// "by 8.2 yd on average (95 % interval +2.1 to +14.3 yd, all 4 heads compared)"
std::string by_words(const HeadsAnswer& a, const HeadPair& pair, UnitSystem units) {
  return fmt::format("by {} on average ({} interval {}{})", yards_words(pair.test.difference, units),
                     confidence_words(a.options.confidence), interval_words(pair.test.low, pair.test.high, units),
                     a.heads.size() > 2 ? fmt::format(", {} heads compared", a.heads.size()) : "");
}

// How likely it is the longest; which one is likelier so, where its mean is better known; and that a handful of shots
// says little.
std::string best_words(const HeadsAnswer& a, std::size_t head) {
  const HeadResult& one = a.heads[head];
  const auto likeliest = std::max_element(a.heads.begin(), a.heads.end(), [](const HeadResult& x, const HeadResult& y) {
    return x.best_probability < y.best_probability;
  });
  const std::string probability = probability_words(one.best_probability),
                    of_other = probability_words(likeliest->best_probability);
  std::string out = fmt::format("{} is the longest of the {} with a probability of {}", one.name,
                                in_words(a.heads.size()), probability);
  if (of_other != probability)
    out += fmt::format("; {}, whose average is better known, with one of {}", likeliest->name, of_other);
  out += ".";
  if (one.shots < kFewShots)
    out += fmt::format(" But {} shots with {} are a handful, and say little.", in_words(one.shots), one.name);
  return out;
}

// The other of carry and total, where less than half of the lead is left there.
std::string other_goal_words(const HeadsAnswer& a, std::size_t head, std::size_t other, UnitSystem units) {
  const bool carry = a.options.goal == Goal::carry;
  const auto &x = carry ? a.heads[head].total : a.heads[head].carry,
             &y = carry ? a.heads[other].total : a.heads[other].carry;
  if (!x || !y) return "";
  const double lead = x->summary.mean - y->summary.mean;
  if (lead >= 0.5 * a.pair(head, other).test.difference) return "";
  return fmt::format(" In {} it is {} {}.", carry ? "total distance" : "carry", yards_words(std::abs(lead), units),
                     lead >= 0.0 ? "ahead" : "behind");
}

// Fairways where the longer head holds clearly fewer of them: a third fewer, and two shots at least.
std::string fairway_words(const HeadsAnswer& a, std::size_t head, std::size_t other) {
  const auto &x = a.heads[head].fairways, &y = a.heads[other].fairways;
  if (!x || !y || x->share() > 2.0 / 3.0 * y->share()) return "";
  if ((y->share() - x->share()) * static_cast<double>(x->count) < 2.0) return "";
  return fmt::format(" But it holds the fairway with {} of {} shots, {} with {} of {}.", x->held, x->count,
                     name_in(a, other), y->held, y->count);
}

std::string worth_words(const HeadsAnswer& a, const HeadPair& pair, UnitSystem units) {
  if (pair.test.difference >= a.options.worthwhile) return "";
  return fmt::format(" That is less than the {} that another driver should bring.",
                     yards_words(a.options.worthwhile, units));
}

// Names of heads that stand to `head` as `apart` says.
std::string names_that_are(const HeadsAnswer& a, std::size_t head, Apart apart) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < a.heads.size(); ++i) {
    if (i != head && a.pair(i, head).apart == apart) out.push_back(name_in(a, i));
  }
  return out.empty() ? "" : listed(out);
}

std::string better_sentence(const HeadsAnswer& a, std::size_t better, UnitSystem units) {
  const std::size_t hand = *a.in_hand;
  const HeadPair& pair = a.pair(better, hand);
  std::vector<std::string> all;
  for (std::size_t i = 0; i < hand; ++i) {
    if (a.pair(i, hand).apart == Apart::further) all.push_back(name_in(a, i));
  }
  std::string out = fmt::format("{} {} further than {}, the one in hand", listed(all), all.size() > 1 ? "go" : "goes",
                                name_in(a, hand));
  out += fmt::format("{} {}.", all.size() > 1 ? ": " + name_in(a, better) : ",", by_words(a, pair, units));
  out += worth_words(a, pair, units) + other_goal_words(a, better, hand, units) + fairway_words(a, better, hand) + " " +
         best_words(a, better);
  if (better == 0 && all.size() > 1 && a.pair(0, 1).apart != Apart::further) {
    const HeadPair& next = a.pair(0, 1);
    out += fmt::format(" {} is {} behind it. {}", name_in(a, 1), yards_words(next.test.difference, units),
                       more_shots_words(a, next, units));
  }
  if (better != 0)
    out += fmt::format(" {} leads, but its shots are too few, or scatter too far, to show it.", name_in(a, 0));
  return out;
}

// The one in hand is shown to be beaten by none.
std::string hand_sentence(const HeadsAnswer& a, UnitSystem units) {
  const std::size_t hand = *a.in_hand;
  if (hand != 0) {
    const HeadPair& pair = a.pair(0, hand);
    return fmt::format("No head is shown to go further than {}, the one in hand. {} leads it {}. {} {}",
                       name_in(a, hand), name_in(a, 0), by_words(a, pair, units), more_shots_words(a, pair, units),
                       best_words(a, 0));
  }
  const HeadPair& next = a.pair(0, 1);
  std::string out = fmt::format("No head goes further than {}, the one in hand: it leads {}, the next, {}.",
                                name_in(a, 0), name_in(a, 1), by_words(a, next, units));
  if (const std::string more = more_shots_words(a, next, units); !more.empty()) out += " " + more;
  return out + " " + best_words(a, 0);
}

// Nobody said which head is in hand: the leader against all others.
std::string leader_sentence(const HeadsAnswer& a, UnitSystem units) {
  const std::string beaten = names_that_are(a, 0, Apart::further), open = names_that_are(a, 0, Apart::not_yet),
                    alike = names_that_are(a, 0, Apart::alike);
  const HeadPair& next = a.pair(0, 1);
  std::string out;
  if (open.empty() && alike.empty()) {
    out = fmt::format("{} goes furthest: further than {}, the next, {}.", name_in(a, 0), name_in(a, 1),
                      by_words(a, next, units));
  } else {
    out = fmt::format("{} leads {}, the next, {}", name_in(a, 0), name_in(a, 1), by_words(a, next, units));
    if (!beaten.empty()) out += fmt::format("; it is told apart from {}", beaten);
    if (!open.empty())
      out += fmt::format("{} from {}", beaten.empty() ? "; it is not yet told apart" : ", but not yet", open);
    if (!alike.empty())
      out += fmt::format("; within {} it and {} are alike", yards_words(a.options.worthwhile, units), alike);
    out += ".";
  }
  if (const std::string more = more_shots_words(a, next, units); !more.empty()) out += " " + more;
  return out + other_goal_words(a, 0, 1, units) + fairway_words(a, 0, 1) + " " + best_words(a, 0);
}

std::string apart_words(const HeadPair& pair) {
  switch (pair.apart) {
    case Apart::further: return "told apart";
    case Apart::alike: return "alike";
    case Apart::not_yet: break;
  }
  return pair.shots_needed ? std::to_string(*pair.shots_needed) : "too many";
}

// Of two heads: which went further beside the other than their deliveries give.
std::string beside_words(const HeadsAnswer& a, UnitSystem units) {
  const double more = a.heads[0].modelled->beyond_others;
  return fmt::format("{} went {} further beside {} than what was delivered with each gives",
                     name_in(a, more > 0.0 ? 0 : 1), yards_words(std::abs(more), units),
                     name_in(a, more > 0.0 ? 1 : 0));
}

// The head that fell short of its own delivery: it has not been beaten yet.
std::string short_words(const HeadsAnswer& a, UnitSystem units) {
  std::string out;
  for (const HeadResult& head : a.heads) {
    if (!head.modelled || head.modelled->explained() || head.modelled->beyond_others > 0.0) continue;
    if (a.heads.size() == 2)
      return fmt::format(" {}: perhaps a good day or a bad one, so hit both again.", beside_words(a, units));
    out += fmt::format(
        " Set against the others {} fell {} short of what was delivered with it: perhaps a bad day with this head, so "
        "hit it again.",
        head.name, yards_words(-head.modelled->beyond_others, units));
  }
  return out;
}

// A day that was bad, or good, with one head.
std::string day_words(const HeadsAnswer& a, const HeadResult& head, UnitSystem units) {
  const ModelledHead& m = *head.modelled;
  if (a.heads.size() == 2)
    return fmt::format(
        "{}; chance and the model explain {} at most. It may have been a good day with the one or a bad day with the "
        "other (strikes that were not measured, a few wild shots), or one of them is not the head the model takes it "
        "for: hit both again another day.",
        beside_words(a, units), yards_words(m.explained_up_to, units));
  const bool bad = m.beyond_others < 0.0;
  return fmt::format(
      "{}: {} {} than its mean delivery gives, set against the others; chance and the model explain {} at most. It may "
      "have been a {} day with this head (strikes that were not measured, a few wild shots), or it is not the head the "
      "model takes it for: hit it again another day.",
      head.name, yards_words(std::abs(m.beyond_others), units), bad ? "shorter" : "longer",
      yards_words(m.explained_up_to, units), bad ? "bad" : "good");
}

std::size_t first_by_model(const HeadsAnswer& a) {
  std::size_t first = 0;
  const auto goal = [&](std::size_t i) {
    return a.options.goal == Goal::carry ? a.heads[i].modelled->carry : a.heads[i].modelled->total;
  };
  for (std::size_t i = 1; i < a.heads.size(); ++i) first = goal(i) > goal(first) ? i : first;
  return first;
}

void add_model_notes(const HeadsAnswer& a, UnitSystem units, std::vector<std::string>& out) {
  if (!a.heads.front().modelled) return;
  bool explained = true;
  for (const HeadResult& head : a.heads) {
    if (head.modelled->explained()) continue;
    explained = false;
    out.push_back(day_words(a, head, units));
    if (a.heads.size() == 2) break;  // what one went further by, the other fell short by
  }
  if (!a.model_disagrees) return;
  const std::size_t first = first_by_model(a);
  out.push_back(
      fmt::format("The model has another order: from the mean deliveries {} would go furthest, measured {} did.{}",
                  name_in(a, first), name_in(a, 0),
                  explained ? " Chance and the model's own uncertainty explain that: the order is not settled." : ""));
}

// Heads with a handful of shots, odd shots that do not count, and heads that are told apart from a longer one and yet
// may be the longest of all: true averages seldom lie so far apart.
void add_shots_notes(const HeadsAnswer& a, std::vector<std::string>& out) {
  constexpr double kWorthSaying = 0.05;  // [-]
  std::vector<std::string> few, odd;
  for (const HeadResult& head : a.heads) {
    if (head.shots < kFewShots) few.push_back(fmt::format("{} with {}", head.shots, head.name));
    if (head.left_out > 0) odd.push_back(fmt::format("{} of {}", head.left_out, head.name));
  }
  if (!odd.empty())
    out.push_back(fmt::format("Left out, for they stand far out from the others of their head: {}.", listed(odd)));
  if (!few.empty())
    out.push_back(fmt::format("Few shots: {}. So few hardly show how far a head scatters; hit ten.", listed(few)));
  for (std::size_t j = 1; j < a.heads.size(); ++j) {
    if (a.heads[j].best_probability < kWorthSaying || a.pair(0, j).apart != Apart::further) continue;
    out.push_back(
        fmt::format("{} is told apart from {} and yet may be the longest, with a probability of {}: heads seldom "
                    "differ so much, so "
                    "its {} shots may have been bad ones. Hit it again.",
                    name_in(a, j), name_in(a, 0), probability_words(a.heads[j].best_probability), a.heads[j].shots));
  }
}

std::string computed_words(const HeadsAnswer& a) {
  std::vector<std::string> what;
  if (a.carry_computed) what.emplace_back("carry");
  if (a.total_computed) what.emplace_back("total");
  if (a.side_computed && a.heads.front().fairways) what.emplace_back("side");
  return what.empty()
             ? ""
             : fmt::format("Not measured with every head, so computed by the model for every shot: {}.", listed(what));
}

}  // namespace

std::string head_words(const HeadsAnswer& a, std::size_t head) {
  return name_in(a, head) + (a.in_hand == head ? " (in hand)" : "");
}

std::string more_shots_words(const HeadsAnswer& a, const HeadPair& pair, UnitSystem units) {
  if (pair.apart == Apart::further) return "";
  if (pair.apart == Apart::alike)
    return fmt::format("All of that interval is less than the {} that matter: the two are alike.",
                       yards_words(a.options.worthwhile, units));
  const std::size_t x = a.heads[pair.first].shots, y = a.heads[pair.second].shots;
  const std::string shots = x == y ? fmt::format("{} shots with each", x) : fmt::format("{} and {} shots", x, y);
  const std::string size = yards_words(std::max(pair.test.difference, a.options.worthwhile), units);
  if (pair.shots_needed == std::size_t{0})
    return fmt::format("These two cannot be told apart by {}, which would show a difference of {} {} of the time.",
                       shots, size, confidence_words(a.options.power));
  if (!pair.shots_needed)
    return fmt::format("These two cannot be told apart by {}, nor by any number worth hitting.", shots);
  return fmt::format(
      "These two cannot be told apart by {}; {} more with each would show a difference of {} {} of the time, if there "
      "is one.",
      shots, *pair.shots_needed, size, confidence_words(a.options.power));
}

std::string heads_sentence(const HeadsAnswer& a, UnitSystem units) {
  const auto better = a.better();
  const std::string answer = !a.in_hand ? leader_sentence(a, units)
                             : better   ? better_sentence(a, *better, units)
                                        : hand_sentence(a, units);
  return answer + short_words(a, units);
}

std::vector<std::string> heads_notes(const HeadsAnswer& a, UnitSystem units) {
  std::vector<std::string> out;
  for (const LeftOutHead& one : a.left_out) out.push_back(fmt::format("{} not compared: {}.", one.name, one.reason));
  add_shots_notes(a, out);
  for (const Note& note : a.notes) out.push_back(note.message + ".");
  if (const std::string words = computed_words(a); !words.empty()) out.push_back(words);
  add_model_notes(a, units, out);
  if (a.in_blocks) {
    out.emplace_back(
        "All shots of a head were hit in one go, so warming up, tiring and the wind pass for a difference of heads. "
        "Let "
        "the heads take turns: two or three shots, then the next.");
  }
  constexpr double kWorthSaying = 1.1;  // [-]
  if (a.wider > kWorthSaying) {
    out.push_back(fmt::format(
        "The shots drift from one to the next, or may: some {} of their scatter wanders. The intervals are {:.0f} % "
        "wider for it than those of shots that do not depend on each other.",
        probability_words(a.wandering), 100.0 * (a.wider - 1.0)));
  }
  return out;
}

TextTable heads_table(const HeadsAnswer& a, UnitSystem units) {
  const std::string far(unit_shown(Shown::distance, units)), percent = confidence_words(a.options.confidence);
  TextTable table{"Heads, the longest first", {}, 2, {}, true};
  const bool sides = a.heads.front().fairways.has_value();
  const bool carry = a.options.goal == Goal::carry;
  table.rows = {{"", "", carry ? "carry" : "total", percent, "scatter", carry ? "total" : "carry"},
                {"", "shots", far, "interval", far, far}};
  if (sides) {
    table.rows[0].insert(table.rows[0].end(), {"in the", "mean"});
    table.rows[1].insert(table.rows[1].end(), {"fairway", "side"});
  }
  table.rows[0].emplace_back("the");
  table.rows[1].emplace_back("longest");
  for (std::size_t i = 0; i < a.heads.size(); ++i) {
    const HeadResult& h = a.heads[i];
    const AverageReading& goal = carry ? *h.carry : *h.total;
    const std::optional<AverageReading>& other = carry ? h.total : h.carry;
    std::vector<std::string> row{
        head_words(a, i),
        std::to_string(h.shots),
        number(Shown::distance, goal.summary.mean, units),
        fmt::format("{} to {}", number(Shown::distance, goal.low, units), number(Shown::distance, goal.high, units)),
        number(Shown::gain, goal.summary.sd, units),
        other ? number(Shown::distance, other->summary.mean, units) : "-"};
    if (sides) {
      row.push_back(fmt::format("{} of {}", h.fairways->held, h.fairways->count));
      row.push_back(number(Shown::distance, h.fairways->side, units, Sign::always));
    }
    row.push_back(probability_words(h.best_probability));
    table.rows.push_back(std::move(row));
  }
  table.notes.push_back(fmt::format(
      "Means of the shots with their scatter. The intervals hold for {} heads at once. The longest: the probability "
      "that its average drive is the longest of all.",
      a.heads.size() == 2 ? "both" : fmt::format("all {}", in_words(a.heads.size()))));
  if (sides)
    table.notes.push_back(fmt::format("In the fairway: within {} about the mean side of each head, aimed so.",
                                      quantity(Shown::distance, a.options.fairway, units)));
  return table;
}

TextTable apart_table(const HeadsAnswer& a, UnitSystem units) {
  TextTable table{"What can be told apart",
                  {{"", "further by", confidence_words(a.options.confidence) + " interval", "more shots"}},
                  1,
                  {}};
  table.stacks = true;
  for (const HeadPair& pair : a.pairs) {
    const std::size_t x = pair.first, y = pair.second, against = a.against();
    const bool shown = a.heads.size() <= 4 || x == 0 || y == 0 || x == against || y == against;
    if (!shown) continue;
    table.rows.push_back({fmt::format("{} over {}", name_in(a, x), name_in(a, y)),
                          yards_words(pair.test.difference, units),
                          interval_words(pair.test.low, pair.test.high, units), apart_words(pair)});
  }
  table.notes.push_back(fmt::format(
      "{0} (Games and Howell), so that at most one fitting in {1:.0f} shows a difference where there is none. More "
      "shots: what is not told apart yet would be by so many more with each of the two, {3} of the time, were the "
      "difference as large as seen, or {2} where that is more. Alike: all of the interval is less than {2}.",
      a.pairs.size() == 1 ? "The interval is so wide"
                          : fmt::format("All {} intervals hold at once", in_words(a.pairs.size())),
      1.0 / (1.0 - a.options.confidence), yards_words(a.options.worthwhile, units), confidence_words(a.options.power)));
  return table;
}

TextTable modelled_table(const HeadsAnswer& a, UnitSystem units) {
  TextTable table{"The model beside it, from the mean delivery with each", {}, 2, {}};
  if (!a.heads.front().modelled) return table;
  const std::string far(unit_shown(Shown::distance, units));
  const bool carry = a.options.goal == Goal::carry;
  table.rows = {{"", "club", "", "delivered", carry ? "carry" : "total", carry ? "carry" : "total", "against", ""},
                {"", "speed", "attack", "loft", "measured", "model", "others", ""}};
  for (std::size_t i = 0; i < a.heads.size(); ++i) {
    const HeadResult& h = a.heads[i];
    const ModelledHead& m = *h.modelled;
    table.rows.push_back({head_words(a, i), number(Shown::speed, m.delivery.club_speed, units),
                          number(Shown::angle, m.delivery.attack, units, Sign::always),
                          number(Shown::angle, m.delivery.dynamic_loft, units),
                          number(Shown::distance, (carry ? *h.carry : *h.total).summary.mean, units),
                          number(Shown::distance, carry ? m.carry : m.total, units),
                          number(Shown::gain, m.beyond_others, units, Sign::always),
                          m.explained() ? "chance" : "beyond chance"});
  }
  table.notes.push_back(
      fmt::format("{}, deg, {}. The model's drive is well struck, the measured mean is not: what matters is whether "
                  "one head stands "
                  "apart from the others in that (against others). It knows the heads by what they delivered alone.",
                  unit_shown(Shown::speed, units), far));
  if (a.heads.front().modelled->inferred)
    table.notes.emplace_back("The deliveries were worked out from the ball numbers, for strikes at the face centre.");
  return table;
}

}  // namespace loftwright
