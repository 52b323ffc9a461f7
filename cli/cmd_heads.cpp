#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "page_file.hpp"
#include "report/heads_words.hpp"
#include "report/shot_words.hpp"
#include "shot_lists.hpp"
#include "shots/csv.hpp"

namespace loftwright::cli {

namespace {

HeadsOptions heads_options(const Values& values, const std::optional<Pupil>& given) {
  HeadsOptions options;
  if (given) {
    options.goal = given->goal;
    options.worthwhile = given->prices.driver;
    options.fairway = given->fairway;
    if (known_club_loft(*given)) options.club_loft = marked_loft(*given);
  }
  options.goal = goal_from(values, options.goal);
  if (values.given("worthwhile")) options.worthwhile = values.quantity("worthwhile");
  if (values.given("fairway")) options.fairway = values.quantity("fairway");
  if (values.given("in-hand")) options.in_hand = values.text("in-hand");
  options.confidence = values.quantity("confidence");
  options.odd = odd_from(values);
  options.seed = values.seed("seed");
  return options;
}

std::string heads_screen(const HeadsAnswer& a, const std::vector<std::string>& lists, const Setting& setting,
                         UnitSystem units) {
  std::string out = wrapped(printable(heads_sentence(a, units)), "Verdict: ") + "\n";
  for (const std::string& list : lists) out += wrapped(list);
  for (TextTable data : {heads_table(a, units), apart_table(a, units), modelled_table(a, units)}) {
    for (auto& row : data.rows) {
      for (std::string& cell : row) cell = printable(cell);
    }
    const std::string text = laid_out(data);
    if (!text.empty()) out += "\n" + text;
  }
  std::string notes;
  for (const std::string& note : heads_notes(a, units)) notes += wrapped(printable(note), "  - ");
  if (!notes.empty()) out += "\n" + section("What to know", notes);
  return out + "\n" + wrapped("The model: " + conditions_words(setting, units)) + "\n" +
         wrapped(cautions(units).front());
}

std::string stem_of(const std::string& file) {
  return file == "-" ? name_of(file) : std::filesystem::path(file).stem().string();
}

}  // namespace

int cmd_heads(const Session& session) {
  const PageFile page(session);
  const Values& values = session.values;
  const std::vector<std::string>& files = values.positionals();
  if (std::count(files.begin(), files.end(), "-") > 1) throw UsageError("only one LIST can be standard input");
  std::optional<Pupil> given;
  if (values.given("pupil")) given = load_pupil(values.text("pupil"), session.catalogue);
  const Pupil player = player_from(values, given.value_or(Pupil{}));
  const Setting setting = setting_for(player, session.catalogue);
  const HeadsOptions options = heads_options(values, given);

  std::vector<NamedList> lists;
  std::vector<std::string> words;
  for (const std::string& file : files) {
    lists.push_back({stem_of(file), list_from(session, file, Clubs::several)});
    for (const std::string& sentence : remarks(lists.back().list, name_of(file))) warn(session, sentence);
    words.push_back(list_words(file, lists.back().list, Outliers::keep));
  }
  std::vector<Note> notes;
  const std::vector<HeadShots> heads = by_head(lists, values.texts("without"), notes);
  HeadsAnswer a = compare_heads(heads, setting, player.handed, options);
  a.notes.insert(a.notes.begin(), notes.begin(), notes.end());

  session.out << (session.json ? heads_json(a, files, setting, session.units)
                               : heads_screen(a, words, setting, session.units));
  if (page.wanted()) {
    std::vector<std::pair<std::string, std::string>> inputs;
    for (const std::string& file : files)
      inputs.emplace_back(name_of(file), file == "-" ? "" : csv_text(read_text(file)));
    page.write(heads_page(a, given ? given->name : "", setting, session.units, inputs));
  }
  const auto told = [&](const HeadPair& p) {
    return p.apart == Apart::further && (p.first == a.against() || p.second == a.against());
  };
  return std::any_of(a.pairs.begin(), a.pairs.end(), told) ? kDone : kNo;
}

}  // namespace loftwright::cli
