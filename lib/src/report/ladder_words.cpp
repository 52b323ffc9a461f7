#include "report/ladder_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

const LadderStep& before(const Ladder& ladder, std::size_t i) { return i == 0 ? ladder.now : ladder.steps[i - 1]; }

double goal_of(const AverageDrive& drive, Goal goal) { return goal == Goal::carry ? drive.carry : drive.total; }

// The steps that change the attack: all but the one with the new driver.
std::size_t count_of_attack(const Ladder& ladder) {
  return static_cast<std::size_t>(
      std::count_if(ladder.steps.begin(), ladder.steps.end(), [](const LadderStep& s) { return !s.new_club; }));
}

// A step that changes the attack; null: none does.
const LadderStep* one_of_attack(const Ladder& ladder) {
  const auto at =
      std::find_if(ladder.steps.begin(), ladder.steps.end(), [](const LadderStep& s) { return !s.new_club; });
  return at == ladder.steps.end() ? nullptr : &*at;
}

// Never fewer than the sign is counted over.
int drives_to_look(const LadderStep& s) { return std::max(kSignCounted, s.drives_to_tell.value_or(kSignCounted)); }

bool is_turn(const LadderStep& s) { return s.fit && s.fit->in_hand; }

std::string driver_words(const LadderStep& s) {
  return s.fit && s.fit->has_sleeve ? head_words(*s.fit) : fmt::format("the {} driver", degrees(s.club_loft));
}

// What the step does beside the attack.
std::string club_step_words(const LadderStep& s) {
  if (!s.new_club) return "";
  return is_turn(s) ? " sleeve turned" : " new driver";
}

std::string steps_words(const Ladder& ladder) {
  const double step = ladder.step / kDegree, tenths = std::round(10.0 * step);
  const bool in_tenths = std::abs(10.0 * step - tenths) < 1e-6;  // "+1.5", and of four steps over five degrees "+1.25"
  return fmt::format("{} of {}", how_many(count_of_attack(ladder), "step"),
                     in_tenths ? degrees(ladder.step, Sign::always) : fmt::format("{:+.2f} deg", step));
}

// "8.9 in forward", "1.2 in back", "as today"
std::string ball_words(double forward, UnitSystem units) {
  if (reads_as_zero(Shown::at_address, forward, units)) return "as today";
  return fmt::format("{} {}", quantity(Shown::at_address, std::abs(forward), units),
                     forward > 0.0 ? "forward" : "back");
}

std::string swing_words(double turn, UnitSystem units) {
  if (reads_as_zero(Shown::angle, turn, units)) return "as today";
  return fmt::format("{} {}", degrees(std::abs(turn)), turn > 0.0 ? "right" : "left");
}

// "above +0.5 deg"
std::string sign_words(const LadderStep& step, const Ladder& ladder) {
  const bool upward = ladder.steps.back().delivery.attack >= ladder.now.delivery.attack;
  return fmt::format("{} {}",
                     ladder.scatter == 0.0 ? "at"
                     : upward              ? "above"
                                           : "below",
                     degrees(step.sign_attack, Sign::always));
}

// For a table's cell: with another driver alone the swing is to stay what it is.
std::string sign_cell(const LadderStep& step, const Ladder& ladder) {
  return (step.new_club ? "still " : "") + sign_words(step, ladder);
}

std::string no_ladder_words(const Ladder& ladder, const Advice& advice) {
  if (!ladder.feasible) return "There is no ladder: no loft and technique within reach meet every limit.";
  if (ladder.lever == Lever::loft) {
    return fmt::format(
        "There is no ladder: the verdict is to change the loft, to {}, and not the technique, so there is no new swing "
        "to learn.",
        loft_words(advice.at(StrategyKind::loft_only).loft, advice.at(StrategyKind::loft_only).fit));
  }
  return "There is no ladder: the verdict is to change neither loft nor technique.";
}

// Steps that break a limit which the target meets.
std::string broken_words(const Ladder& ladder) {
  std::vector<std::string> steps;
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
    std::vector<std::string> titles;
    for (const Limited limited : ladder.steps[i].broken) titles.emplace_back(title_of(limited));
    if (!titles.empty()) steps.push_back(fmt::format("step {} on {}", i + 1, listed(titles)));
  }
  return steps.empty() ? "" : fmt::format("limits are broken on the way that the last step meets: {}", listed(steps));
}

// Steps that cost yards until the next ones bring them back.
std::string cost_words(const Ladder& ladder, const Advice& advice, UnitSystem units) {
  std::vector<std::string> costs;
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
    const double change =
        goal_of(ladder.steps[i].average, advice.goal) - goal_of(before(ladder, i).average, advice.goal);
    if (change < 0.0 && !reads_as_zero(Shown::gain, change, units))
      costs.push_back(fmt::format("step {} costs {}", i + 1, quantity(Shown::gain, -change, units)));
  }
  if (costs.empty()) return "";
  return fmt::format("not every step is longer than the one before: {} of average {}", listed(costs),
                     key_of(advice.goal));
}

std::string times_words(double chance) {
  const double times = std::round(100.0 * chance);
  return times < 1.0 ? "less than once in a hundred" : fmt::format("{:.0f} times in a hundred", times);
}

}  // namespace

std::string ladder_sentence(const Ladder& ladder, const Advice& advice, UnitSystem units) {
  if (ladder.steps.empty()) return no_ladder_words(ladder, advice);
  const LadderStep& last = ladder.steps.back();
  const auto club =
      std::find_if(ladder.steps.begin(), ladder.steps.end(), [](const LadderStep& s) { return s.new_club; });
  std::string how = count_of_attack(ladder) == 0 ? driver_words(last) : steps_words(ladder);
  if (club != ladder.steps.end() && count_of_attack(ladder) > 0) {
    how =
        club == ladder.steps.begin()
            ? fmt::format("first {} (step 1), then {}", driver_words(*club), steps_words(ladder))
            : fmt::format("first {}, then {} (step {})", steps_words(ladder), driver_words(*club), ladder.steps.size());
  }
  return fmt::format(
      "{}From an attack of {} to {}: {}. The average {} goes from {} to {}.",
      ladder.lever == Lever::either ? "Either will do, and a change of loft needs no ladder; for the technique: " : "",
      degrees(ladder.now.delivery.attack, Sign::always), degrees(last.delivery.attack, Sign::always), how,
      key_of(advice.goal), quantity(Shown::distance, goal_of(ladder.now.average, advice.goal), units),
      quantity(Shown::distance, goal_of(last.average, advice.goal), units));
}

std::string reached_words(const LadderStep& step, const LadderStep& before, const Ladder& ladder) {
  std::string drives = fmt::format("{} {} of attack", ladder.scatter == 0.0 ? "the drives" : "eight of ten drives",
                                   sign_words(step, ladder));
  if (!step.new_club) return drives;
  return fmt::format("{}{}, and still {}, as with {}", driver_words(step), is_turn(step) ? "" : " in hand", drives,
                     driver_words(before));
}

TextTable ladder_table(const Ladder& ladder, const Advice& advice, UnitSystem units) {
  TextTable table{"The ladder", {}, 2, {}};
  if (ladder.steps.empty()) return table;
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  table.rows = {{"step", "driver", "attack", "delivered", "launch", "spin", "carry", "total", "gain"},
                {"", head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::spin),
                 head(Shown::distance), head(Shown::distance), head(Shown::gain)}};
  const auto add = [&](std::string name, const LadderStep& s, bool is_now) {
    table.rows.push_back(
        {std::move(name), number(Shown::angle, s.club_loft, units),
         number(Shown::angle, s.delivery.attack, units, Sign::always),
         number(Shown::angle, s.delivery.dynamic_loft, units), number(Shown::angle, s.drive.launch.launch, units),
         number(Shown::spin, s.drive.launch.spin, units), number(Shown::distance, s.average.carry, units),
         number(Shown::distance, s.average.total, units),
         is_now ? "" : number(Shown::gain, s.gain, units, Sign::always)});
  };
  add(ladder.now.broken.empty() ? "now" : "now *", ladder.now, true);
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
    const LadderStep& s = ladder.steps[i];
    add(fmt::format("{}{}{}", i + 1, club_step_words(s), s.broken.empty() ? "" : " *"), s, false);
  }
  if (!ladder.now.broken.empty() || !broken_words(ladder).empty()) table.notes.emplace_back("* breaks a limit");
  table.notes.push_back(
      fmt::format("Carry, total and gain (of {}) are the average drive's, mishits and all; delivered loft, launch and "
                  "spin are a well-struck one's.",
                  key_of(advice.goal)));
  return table;
}

TextTable ladder_set_up_table(const Ladder& ladder, UnitSystem units) {
  TextTable table{"At address, and the sign that a step is reached", {}, 2, {}};
  if (ladder.steps.empty()) return table;
  const std::string small(unit_shown(Shown::at_address, units)), angle(unit_shown(Shown::angle, units));
  table.rows = {{"step", "low point", "ball forward", "base line", "eight of ten"},
                {"", small, small, angle, "drives"}};
  const auto add = [&](std::string name, const LadderStep& s, bool is_now) {
    std::vector<std::string> row{std::move(name), "-", "-", "-", ""};
    if (s.set_up) {
      row[1] = number(Shown::at_address, s.set_up->low_point, units, Sign::always);
      row[2] = number(Shown::at_address, s.set_up->ball_forward, units, Sign::always);
      row[3] = number(Shown::angle, s.set_up->swing_direction, units, Sign::always);
    }
    if (!is_now) row[4] = sign_cell(s, ladder);
    table.rows.push_back(std::move(row));
  };
  add("now", ladder.now, true);
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) add(std::to_string(i + 1), ladder.steps[i], false);
  table.notes.emplace_back(
      "Low point ahead of the ball +, behind it -; ball forward of where it lies now against the low point: move the "
      "ball, the low point, or some of each; base line right of the target +, the one that keeps the path.");
  return table;
}

TextTable pupils_ladder_table(const Ladder& ladder, const Advice& advice, UnitSystem units) {
  TextTable table;
  if (ladder.steps.empty()) return table;
  const bool new_club =
      std::any_of(ladder.steps.begin(), ladder.steps.end(), [](const LadderStep& s) { return s.new_club; });
  table.title = "Each step, and the sign that it is reached";
  table.heads = 2;
  table.stacks = true;
  const std::string counted = ladder.scatter == 0.0 ? "all" : "eight of ten";
  table.rows = {
      {"", "", counted, fmt::format("average {}", key_of(advice.goal)), "ball", "swing"},
      {"step", "attack", "drives", std::string(unit_shown(Shown::distance, units)), "from today", "from today"}};
  if (new_club) {
    table.rows[0].insert(table.rows[0].begin() + 1, "");
    table.rows[1].insert(table.rows[1].begin() + 1, "driver");
  }
  const auto add = [&](std::string name, const LadderStep& s, std::string sign) {
    const bool known = s.set_up && ladder.now.set_up;
    std::vector<std::string> row{std::move(name)};
    if (new_club)
      row.push_back(degrees(s.club_loft) +
                    (s.fit && !s.fit->setting.empty() ? fmt::format(" ({})", s.fit->setting) : ""));
    row.push_back(degrees(s.delivery.attack, Sign::always));
    row.push_back(std::move(sign));
    row.push_back(number(Shown::distance, goal_of(s.average, advice.goal), units));
    row.push_back(known ? ball_words(s.set_up->ball_forward, units) : "-");
    row.push_back(known ? swing_words(s.set_up->swing_direction - ladder.now.set_up->swing_direction, units) : "-");
    table.rows.push_back(std::move(row));
  };
  add("today", ladder.now, "");
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
    const LadderStep& s = ladder.steps[i];
    add(fmt::format("{}{}", i + 1, club_step_words(s)), s, sign_cell(s, ladder));
  }
  return table;
}

std::vector<std::string> pupils_ladder_sentences(const Ladder& ladder, const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  if (ladder.steps.empty()) return out;
  out.push_back(fmt::format("A step is reached when {} drives are as their column says. Only then comes the next.",
                            ladder.scatter == 0.0 ? "all" : "eight of ten"));
  if (ladder.now.set_up)
    out.emplace_back(
        "Ball: against the low point of the swing. Move the ball, the low point, or some of each. Swing: turn its line "
        "so far, so that the path stays.");
  if (const LadderStep* step = one_of_attack(ladder))
    out.push_back(
        fmt::format("Look again after {} drives, on the same device, in three to four weeks (common "
                    "practice).",
                    drives_to_look(*step)));
  std::string cost = cost_words(ladder, advice, units);
  if (!cost.empty()) {
    cost[0] = static_cast<char>(cost[0] - 'a' + 'A');
    out.push_back(cost + ".");
  }
  return out;
}

std::vector<std::string> ladder_sentences(const Ladder& ladder, const Pupil& pupil, const Advice& advice,
                                          UnitSystem units) {
  std::vector<std::string> out;
  const LadderStep* attack_step = one_of_attack(ladder);
  if (!attack_step) return out;
  const std::string scatter = fmt::format(
      "{} from drive to drive{}", degrees(ladder.scatter),
      ladder.scatter_is_usual ? fmt::format(" (not measured: usual for a {} golfer)", key_of(pupil.skill)) : "");
  if (ladder.scatter > 0.0) {
    out.push_back(
        fmt::format("the signs are reckoned from the scatter of the attack, {}: with a mean attack at the step, eight "
                    "of ten drives lie beyond its sign",
                    scatter));
    out.push_back(fmt::format("ten drives from the step before would show the sign by chance {}",
                              times_words(attack_step->sign_by_chance)));
  }
  const int drives = drives_to_look(*attack_step);
  out.push_back(
      fmt::format("look again after {} drives on one device: so many tell the mean attack of a step from that "
                  "of the one before, 95 times in a hundred",
                  drives));
  constexpr int kMostInOneVisit = 60;  // estimate
  if (drives > kMostInOneVisit)
    out.emplace_back(
        "that is more than one visit holds: the steps are small against the scatter; larger ones show sooner");
  if (ladder.now.set_up)
    out.emplace_back("the ball moves against the low point: move the ball, the low point, or some of each");
  out.emplace_back("come back in three to four weeks (common practice; not worked out from anything here)");
  for (const std::string& sentence : {broken_words(ladder), cost_words(ladder, advice, units)}) {
    if (!sentence.empty()) out.push_back(sentence);
  }
  if (!ladder.now.set_up ||
      std::any_of(ladder.steps.begin(), ladder.steps.end(), [](const LadderStep& s) { return !s.set_up; })) {
    out.emplace_back("a dash at address: the low point or the base line lies beyond what the arc is reckoned for");
  }
  out.push_back(
      fmt::format("delivered loft is taken to follow the attack by {:.3g} deg a degree: measure it on the first "
                  "step, and ask again with what was measured",
                  pupil.reach.follow));
  return out;
}

}  // namespace loftwright
