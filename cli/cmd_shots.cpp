#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/report/json.hpp"
#include "report/shot_words.hpp"
#include "shot_lists.hpp"

namespace loftwright::cli {

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string columns_text(const ShotList& list) {
  Rows rows;
  for (const FoundColumn& c : list.columns) {
    rows.push_back({printable(c.head), std::string(info(c.reading).title),
                    fmt::format("{}{}", c.unit ? c.unit->symbol : "", c.reversed ? ", signs turned round" : "")});
  }
  std::string out = section("What each column was read as", table(rows));
  std::string unused;
  for (const std::string& head : list.unused) unused += fmt::format("{}{}", unused.empty() ? "" : ", ", head);
  if (!unused.empty()) out += wrapped(printable(unused), "  not used: ");
  return out;
}

std::string lines_text(const std::vector<std::string>& sentences) {
  std::string out;
  for (const std::string& sentence : sentences) out += wrapped(printable(sentence), "  ");
  return out;
}

std::string set_aside_text(const ShotList& list) {
  std::string out;
  for (const SetAside& row : list.set_aside)
    out += wrapped(printable(row.reason), fmt::format("  line {:<4} ", row.line));
  return section("Set aside: these cannot be shots", out);
}

std::string odd_text(const ShotsAnswer& a, UnitSystem units) {
  std::string out;
  for (const Shot& shot : a.list.shots) {
    std::string what;
    for (const Reading r : shot.odd) {
      what +=
          fmt::format("{}{} {}", what.empty() ? "" : ", ", info(r).title, quantity(shown_as(r), *shot.at(r), units));
    }
    if (!what.empty()) out += wrapped(what, fmt::format("  line {:<4} ", shot.line));
  }
  // What they do to the means.
  const bool one =
      std::count_if(a.list.shots.begin(), a.list.shots.end(), [](const Shot& s) { return !s.odd.empty(); }) == 1;
  const std::string_view which = one ? "this shot" : "these shots";
  std::string both;
  const ShotSummary with = summarise(a.list, Outliers::keep), without = summarise(a.list, Outliers::leave_out);
  for (const ReadingSummary& r : with.readings) {
    const auto is_odd = [&](const Shot& shot) {
      return std::find(shot.odd.begin(), shot.odd.end(), r.reading) != shot.odd.end();
    };
    const auto rest = std::find_if(without.readings.begin(), without.readings.end(),
                                   [&](const auto& w) { return w.reading == r.reading; });
    if (rest == without.readings.end() || std::none_of(a.list.shots.begin(), a.list.shots.end(), is_odd)) continue;
    both += wrapped(fmt::format("the mean of {} is {} with {}, {} without", info(r.reading).title,
                                quantity(shown_as(r.reading), r.summary.mean, units), which,
                                quantity(shown_as(r.reading), rest->summary.mean, units)),
                    "  ");
  }
  out += both;
  return section(a.odd == Outliers::keep
                     ? "Outliers: far out from the others, counted (--odd leave-out leaves them out)"
                     : "Outliers: far out from the others, left out (--odd keep counts them)",
                 out);
}

std::string notes_text(const ShotsAnswer& a) {
  std::vector<std::string> said;
  for (const std::vector<Note>* notes : {&a.list.notes, &a.completed.notes}) {
    for (const Note& note : *notes) {
      said.push_back(note.line ? fmt::format("line {}: {}", note.line, note.message) : note.message);
    }
  }
  if (a.block) {
    for (std::string& sentence : remarks(*a.block)) said.push_back(std::move(sentence));
  }
  return section("Notes", lines_text(said));
}

std::string readings_text(std::string_view heading, const ShotSummary& summary, UnitSystem units) {
  Rows rows{{"", "", "shots", "mean", "error", "scatter", "median", "robust"}};
  for (const ReadingSummary& r : summary.readings) {
    const Shown shown = shown_as(r.reading), scatter = difference_shown_as(r.reading);
    const auto spread = [&](double si) { return r.summary.has_spread() ? number(scatter, si, units) : "-"; };
    rows.push_back({std::string(info(r.reading).title), std::string(unit_shown(shown, units)),
                    std::to_string(r.summary.count), number(shown, r.summary.mean, units),
                    spread(r.summary.standard_error), spread(r.summary.sd), number(shown, r.median, units),
                    spread(r.robust_sd)});
  }
  return rows.size() == 1 ? "" : section(heading, table(rows));
}

std::string consistency_text(const Consistency& consistency, UnitSystem units) {
  if (consistency.rows.empty()) return "";
  Rows rows{{"", "", "shots", "measured - model", "may differ by", ""}};
  for (const ConsistencyRow& row : consistency.rows) {
    const Shown shown = difference_shown_as(row.reading);
    const double error = row.difference.has_spread() ? row.difference.standard_error : 0.0;
    rows.push_back({std::string(info(row.reading).title), std::string(unit_shown(shown, units)),
                    std::to_string(row.difference.count), number(shown, row.difference.mean, units, Sign::always),
                    number(shown, 2.0 * std::hypot(error, row.model_width), units),
                    row.agrees ? "agrees" : "does not"});
  }
  return section("Do the measurements agree with each other?", table(rows)) +
         wrapped(consistency_sentence(consistency));
}

std::string screen(const ShotsAnswer& a, const Setting& setting, UnitSystem units) {
  const ShotSummary summary = summarise(a.list, a.odd);
  const std::string measured = readings_text("Measured", summary, units) +
                               wrapped(
                                   "Error: how far the mean may be off (standard error). Scatter: from shot to "
                                   "shot (standard deviation); robust: the same with no weight on single wild shots.");
  const std::string computed =
      readings_text("Not measured, computed by the model", summarise(only_computed(a.completed, a.list), a.odd), units);
  std::string out = wrapped(list_words(a.file, a.list, a.odd) + ".");
  for (const std::string& part : {columns_text(a.list), set_aside_text(a.list), odd_text(a, units), notes_text(a),
                                  measured, section("What goes together", lines_text(together_sentences(summary))),
                                  consistency_text(a.consistency, units), computed}) {
    if (!part.empty()) out += "\n" + part;
  }
  if (!computed.empty() || !a.consistency.rows.empty())
    out += "\n" + wrapped("The model: " + conditions_words(setting, units));
  if (a.block) {
    out += "\n" + wrapped(
                      "A pupil's file can name this list (\"shots\") in place of numbers; the numbers for it: the same "
                      "command with --paste.");
  }
  return out;
}

}  // namespace

int cmd_shots(const Session& session) {
  const Pupil pupil = player_from(session.values);
  const Setting setting = setting_for(pupil, session.catalogue);
  ShotsAnswer a;
  a.file = session.values.positional();
  check_learn(session);
  a.list = list_from(session, a.file);
  a.handed = pupil.handed;
  a.odd = odd_from(session.values);
  a.completed = complete(a.list, setting, pupil.handed);
  a.consistency = consistency(a.list, setting, pupil.handed, a.odd);
  a.block = delivery_block(a.list, setting, pupil.handed, a.odd);
  if (session.values.given("paste")) {
    if (!a.block) {
      throw InputError(
          fmt::format("{}: a delivery needs club speed, attack and delivered loft, or ball speed, launch and spin",
                      name_of(a.file)));
    }
    for (const std::string& sentence : remarks(*a.block))
      warn(session, fmt::format("{}: {}", name_of(a.file), sentence));
    session.out << (session.json ? shots_json(a, setting) : pupil_lines(*a.block, session.units));
  } else {
    session.out << (session.json ? shots_json(a, setting) : screen(a, setting, session.units));
  }
  learn_columns(session);
  return kDone;
}

}  // namespace loftwright::cli
