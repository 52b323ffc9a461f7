#include <fmt/format.h>

#include <array>
#include <cstdint>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/advise/advise.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "page_file.hpp"
#include "report/compare_tables.hpp"
#include "report/shot_words.hpp"
#include "shot_lists.hpp"
#include "shots/csv.hpp"

namespace loftwright::cli {

namespace {

void take_club_loft(const Values& values, Pupil& pupil) {
  if (values.given("club-loft")) pupil.club_loft = values.quantity("club-loft");
}

// The second set of circumstances: those of the first with what --changed says. The club of the pupil's file is that of
// before: a new driver may be what was tried, so of the one after is known what is typed.
Pupil player_after(const Values& values, Pupil before) {
  before.club_loft = 0.0;
  take_club_loft(values, before);
  if (!values.given("changed")) return before;
  constexpr std::array<std::string_view, 2> kMay{kPlayerGroup, kCourseGroup};
  const Values changed = values.with("changed", values.text("changed"), kMay);
  Pupil after = player_from(changed, before);
  take_club_loft(changed, after);
  if (after.handed != before.handed) throw UsageError("--changed: 'handed' cannot change between the two lists");
  return after;
}

CompareAnswer::Side side_from(const Session& session, const std::string& file, const Pupil& pupil) {
  return {file, {list_from(session, file), setting_for(pupil, session.catalogue), known_club_loft(pupil)}};
}

CompareOptions options_from(const Values& values, const std::optional<Pupil>& given) {
  CompareOptions options;
  if (given) {
    options.goal = given->goal;
    options.worthwhile = given->prices.swing;
  }
  options.goal = goal_from(values, options.goal);
  if (values.given("worthwhile")) options.worthwhile = values.quantity("worthwhile");
  options.confidence = values.quantity("confidence");
  options.odd = odd_from(values);
  options.bootstrap.seed = values.seed("seed");
  return options;
}

ChangeOptions change_options_from(const Session& session, const CompareOptions& options, const Pupil& player) {
  ChangeOptions out;
  out.follow = player.reach.follow;
  out.goal = options.goal;
  out.confidence = options.confidence;
  out.odd = options.odd;
  out.seed = options.bootstrap.seed;
  out.threads = threads_given(session);
  return out;
}

// What was predicted, by the pupil's file (gains that matter) or on the command line, against what was measured.
std::vector<ReachedGain> reached_from(const Session& session, const std::optional<Pupil>& given,
                                      const CompareOptions& asked, const WelchTest& measured) {
  std::vector<ReachedGain> out;
  if (session.values.given("predicted"))
    out.push_back({"given", reached(session.values.quantity("predicted"), measured)});
  if (!given) return out;
  Pupil pupil = *given;
  pupil.goal = asked.goal;
  AdviseOptions options;  // the numbers that 'advise' tells
  options.verdict_only = true;
  options.threads = threads_given(session);
  const Advice advice = advise(pupil, setting_for(pupil, session.catalogue), options);
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    const Strategy& s = advice.at(kind);
    if (s.feasible && s.gain > 0.0 && s.gain >= asked.worthwhile)
      out.push_back({std::string(key_of(kind)), reached(s.gain, measured)});
  }
  return out;
}

std::string screen(const CompareAnswer& a, UnitSystem units) {
  std::string out = wrapped(list_words(a.before.file, a.before.hitting.list, a.options.odd), "Before  ") +
                    wrapped(list_words(a.after.file, a.after.hitting.list, a.options.odd), "After   ");
  for (const std::string& note : compare_notes(a)) out += wrapped(note);
  for (const TextTable& data : {readings_table(a, units), change_table(a, units), reached_table(a, units)}) {
    const std::string text = laid_out(data);
    if (!text.empty()) out += "\n" + text;
  }
  const std::string before = conditions_words(a.before.hitting.setting, units),
                    after = conditions_words(a.after.hitting.setting, units);
  out += "\n" + wrapped("The model: " + before);
  if (after != before) out += wrapped("After: " + after);
  out += "\n" + wrapped(verdict_sentence(a.comparison, a.options, a.change, units), "Verdict: ");
  return out + "\n" + wrapped(cautions(units).front());
}

std::string why_not_compared(const CompareAnswer& a, Reading goal) {
  const std::string files = fmt::format("{} and {}", name_of(a.before.file), name_of(a.after.file));
  for (const NotCompared& one : a.comparison.not_compared) {
    if (one.reading == goal) return fmt::format("{}: {} not compared: {}", files, info(goal).title, one.why);
  }
  return fmt::format(
      "{}: {} is not in both lists, at least twice each, and cannot be computed: that takes ball speed, launch and "
      "spin, or club speed, attack and delivered loft",
      files, info(goal).title);
}

// The files as text, for the page; what came through a pipe cannot be read twice.
std::vector<std::pair<std::string, std::string>> inputs_of(const CompareAnswer& a) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const std::string& file : {a.before.file, a.after.file})
    out.emplace_back(name_of(file), file == "-" ? "" : csv_text(read_text(file)));
  return out;
}

}  // namespace

int cmd_compare(const Session& session) {
  const PageFile page(session);
  const Values& values = session.values;
  if (values.positional(0) == "-" && values.positional(1) == "-") {
    throw UsageError("only one of BEFORE and AFTER can be standard input");
  }
  std::optional<Pupil> given;
  if (values.given("pupil")) given = load_pupil(values.text("pupil"), session.catalogue);
  Pupil player = player_from(values, given.value_or(Pupil{}));
  take_club_loft(values, player);

  CompareAnswer a;
  a.name = player.name;
  a.handed = player.handed;
  a.before = side_from(session, values.positional(0), player);
  a.after = side_from(session, values.positional(1), player_after(values, player));
  a.options = options_from(values, given);
  a.change_options = change_options_from(session, a.options, player);
  for (const CompareAnswer::Side* side : {&a.before, &a.after}) {
    for (const std::string& sentence : remarks(side->hitting.list, name_of(side->file))) warn(session, sentence);
  }

  const Reading goal = a.options.goal == Goal::carry ? Reading::carry : Reading::total;
  a.change = explain_change(a.before.hitting, a.after.hitting, player.handed, a.change_options);
  a.goal_computed = !measured_in_both(a.before.hitting.list, a.after.hitting.list, goal);
  if (a.goal_computed) compute_goal(a.before.hitting, a.after.hitting, player.handed, goal);
  a.comparison = compare_shots(a.before.hitting.list, a.after.hitting.list, a.options);
  const ComparedReading* compared = a.comparison.find(goal);
  if (!compared) throw InputError(why_not_compared(a, goal));
  a.reached = reached_from(session, given, a.options, compared->test);
  session.out << (session.json ? compare_json(a, session.units) : screen(a, session.units));
  if (page.wanted()) page.write(compare_page(a, session.units, inputs_of(a)));
  const CompareVerdict verdict = a.comparison.verdict;
  return verdict == CompareVerdict::gain || verdict == CompareVerdict::loss ? kDone : kNo;
}

}  // namespace loftwright::cli
