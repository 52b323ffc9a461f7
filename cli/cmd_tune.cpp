#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "commands.hpp"
#include "core/disk.hpp"
#include "core/text.hpp"
#include "layout.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/report/advice_words.hpp"
#include "loftwright/report/json.hpp"
#include "report/shot_words.hpp"
#include "report/tune_words.hpp"
#include "shot_lists.hpp"

namespace loftwright::cli {

namespace {

namespace fs = std::filesystem;

std::string values_table(const TuneResult& result) {
  std::vector<std::vector<std::string>> rows{{"", "", "", "", "uncertainty"},
                                             {"", "as modelled", "tuned", "8 in 10", "removed"}};
  for (const TunedValue& v : result.values) {
    const auto shown = [](double value) { return number(Shown::coefficient, value, UnitSystem::yards); };
    rows.push_back({std::string(title_of(v.tunable)), fmt::format("{} +- {}", shown(v.prior), shown(v.prior_sd)),
                    fmt::format("{} +- {}", shown(v.value), shown(v.sd)),
                    fmt::format("{} to {}", shown(v.low80), shown(v.high80)),
                    fmt::format("{:.0f} %", 100.0 * v.removed)});
  }
  return table(rows);
}

// Titles of two words stand on two lines, or the table is wider than a screen; the turf's are there when the shots tell
// of them.
std::string correlations_table(const TuneResult& result) {
  std::vector<std::vector<std::string>> rows(2, {""});
  const auto left_out = [&](Tunable i) { return is_of_turf(i) && !result.values[i].identified; };
  for (const Tunable i : kAllOf<Tunable>) {
    if (left_out(i)) continue;
    const std::string title(title_of(i));
    const std::size_t space = title.find(' ');
    rows[0].push_back(space == std::string::npos ? "" : title.substr(0, space));
    rows[1].push_back(space == std::string::npos ? title : title.substr(space + 1));
    rows.push_back({title});
    for (const Tunable j : kAllOf<Tunable>) {
      if (!left_out(j)) rows.back().push_back(number(Shown::factor, result.correlation[i][j], UnitSystem::yards));
    }
  }
  return table(rows);
}

std::string readings_table(const TuneResult& result, UnitSystem units) {
  std::vector<std::vector<std::string>> rows{
      {"", "", "mean", "mean", "rms", "rms", "rms", "sd"},
      {"", "shots", "untuned", "tuned", "untuned", "tuned", "left out", "explained"}};
  for (const TunedReading& r : result.readings) {
    const Shown shown = difference_shown_as(r.reading);
    const auto off = [&](double si) { return number(shown, si, units, Sign::always); };
    const auto size = [&](double si) { return number(shown, si, units); };
    rows.push_back({fmt::format("{} [{}]", fitted_title(r.reading), unit_shown(shown, units)), std::to_string(r.count),
                    off(r.untuned.mean), off(r.tuned.mean), size(r.untuned.rms), size(r.tuned.rms),
                    size(r.left_out_tuned.rms), size(r.expected)});
  }
  return table(rows);
}

std::string tune_text(const TuneResult& result, const std::string& block, const std::string& file,
                      const std::string& name, const Setting& setting, UnitSystem units) {
  const LeftOut& l = result.left_out;
  const bool runs = result.with_run > 0;
  std::string out = wrapped(printable(fmt::format(
      "{}: {} tuned to {} of {}, {} with club and ball numbers, {} with a flight{}.", name.empty() ? "A pupil" : name,
      runs ? "head, ball and turf" : "head and ball", how_many(result.shots, "shot"), file, result.with_strike,
      result.with_flight, runs ? fmt::format(", {} with a run", result.with_run) : "")));
  out += wrapped(conditions_words(setting, units)) + "\n";
  out += section("What is tuned", values_table(result));
  for (const std::string& sentence : tune_sentences(result, units)) out += wrapped(printable(sentence), "  - ");
  out += "\n" + section("Correlations of the tuned values", correlations_table(result));
  out += "\n" + section("Measured minus computed", readings_table(result, units));
  out += wrapped(
      fmt::format(
          "Left out: each shot predicted by a fit without its part of the list, {} parts in all. Explained: what the "
          "errors "
          "of a good device and an unseen strike make of one shot. All together: chi-square {:.0f} for {} readings (a "
          "larger one by chance: {}).",
          l.folds, result.chi_square, result.degrees_of_freedom, probability_words(result.chi_square_p)),
      "  ");
  out += "\n" + wrapped(tune_verdict_sentence(result), "Verdict: ");
  return out + "\n" +
         section(l.verdict == TuneVerdict::better ? "For the pupil's file"
                                                  : "The block for the pupil's file, if you want it all the same",
                 block);
}

// Writes the pupil's file with the block in it, once it is sure to be one where it will stand.
void write_copy(const Session& session, const std::string& text, const Tuning& tuning, const fs::path& into) {
  const std::string copy = with_tuned(text, tuning);
  Findings findings;
  if (!read_pupil(copy, into.parent_path(), session.catalogue, findings)) {
    throw InputError(fmt::format("--into: files that the pupil's file names beside itself are not found from there; {}",
                                 FileError(into.string(), findings).what()));
  }
  write_text(into, copy, session.values.positional());
  session.kept = fmt::format("{} is written", into.string());
}

}  // namespace

int cmd_tune(const Session& session) {
  const Values& values = session.values;
  const std::string file = values.positional(), list_file = values.text("shots");
  const fs::path into = values.given("into") ? values.text("into") : "";
  if (values.given("into")) check_into(session, into.string());
  const std::string text = read_text(file);
  Findings findings;
  std::optional<Pupil> pupil = read_pupil(text, fs::path(file).parent_path(), session.catalogue, findings);
  if (!pupil) throw FileError(file, findings);
  for (const Finding& f : findings) warn(session, words_of(f));
  pupil->tuned.reset();  // a tuning there is already is not evidence beside the shots it came from
  const Setting setting = setting_for(*pupil, session.catalogue);

  const ShotList list = list_from(session, list_file);
  for (const std::string& remark : remarks(list, list_file)) warn(session, remark);
  TuneOptions options;
  options.odd = odd_from(values);
  options.folds = static_cast<int>(values.integer("folds"));
  options.seed = values.seed("seed");
  options.threads = threads_given(session);
  const TuneResult result = tune(list, *pupil, setting, options);
  for (const Note& note : result.notes)
    warn(session, fmt::format("{}, line {} not fitted to: {}", list_file, note.line, note.message));

  const bool helps = result.left_out.verdict == TuneVerdict::better;
  if (values.given("into") && helps) write_copy(session, text, result.tuning(), into);
  const std::string block = tuned_block(text, result.tuning());
  session.out << (session.json ? tune_json(result, list_file, block, setting, session.units)
                               : tune_text(result, block, list_file, pupil->name, setting, session.units));
  if (values.given("into") && helps && !session.json) {
    session.out << "\n"
                << wrapped(
                       printable(fmt::format("{} is written: the pupil's file with that block in it.", into.string())));
  }
  if (values.given("into") && !helps) {  // said even when warnings are not wanted
    session.err << wrapped(
        printable(fmt::format("{} was not written: tuning does not predict left-out shots better", into.string())));
  }
  return helps ? kDone : kNo;
}

}  // namespace loftwright::cli
