#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "core/text.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "page_file.hpp"
#include "progress.hpp"
#include "pupil_folders.hpp"
#include "report/rack_tables.hpp"

namespace loftwright::cli {

namespace {

bool is_whole(std::string_view word) { return !word.empty() && std::all_of(word.begin(), word.end(), is_digit); }

// "10,5" is two lofts, and five degrees are hardly meant.
void refuse_decimal_comma(std::string_view before, std::string_view word, double loft) {
  constexpr double kNoDriver = 7.0 * kDegree;  // less is on no driver (common practice)
  if (loft >= kNoDriver || !is_whole(before) || !is_whole(word)) return;
  throw UsageError(
      fmt::format("--lofts: '{0},{1}' would be two lofts, {0} deg and {1} deg; write a decimal with a point, {0}.{1}",
                  before, word));
}

// "9deg,10.5deg,12": rising, whatever order they were typed in.
std::vector<double> lofts_from(const Values& values) {
  const std::string text = values.text("lofts");
  std::vector<double> out;
  std::string_view before;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find(',', from), text.size());
    const std::string_view word = std::string_view(text).substr(from, end - from);
    try {
      out.push_back(parse_quantity("--lofts", word, Dimension::angle, "deg"));
    } catch (const InputError& error) {
      throw UsageError(error.what());
    }
    if (out.size() > 1) refuse_decimal_comma(before, word, out.back());
    before = word;
    from = end + 1;
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string rack_text(const RackAnswer& answer, UnitSystem units) {
  constexpr std::size_t kNameWidth = 28;
  std::string out, served, notes;
  for (const std::string& sentence : rack_sentences(answer, units)) out += wrapped(sentence);
  for (const std::string& sentence : served_sentences(answer, units)) served += wrapped(printable(sentence), "  - ");
  for (const std::string& sentence : rack_notes(answer)) notes += wrapped(sentence);
  if (answer.swing == RackSwing::now)
    notes += wrapped("--after-advice takes the attack that 'clinic' advises for each.");
  TextTable pupils = rack_pupil_table(answer, units, kNameWidth);
  for (auto& row : pupils.rows) row.front() = printable(row.front());
  out += "\n" + laid_out(rack_size_table(answer, units)) + "\n" + section("Who takes which", served) + "\n" +
         laid_out(pupils) + "\n" + notes;
  const std::string files = files_text(answer.folder, answer.results);
  return out + academy_text(academy_sentences(answer)) + (files.empty() ? "" : "\n" + files) + "\n" +
         cautions_text(units);
}

}  // namespace

int cmd_rack(const Session& session) {
  const PageFile page(session);
  const std::vector<double> lofts = lofts_from(session.values);
  const int places = static_cast<int>(session.values.integer("places"));
  try {
    check_rack(lofts, places);
  } catch (const InputError& error) {
    throw InputError(fmt::format("--{}", error.what()));
  }
  RackAnswer answer{pupil_folder(session.values.positional()), {}, RackSwing::now, {}, academy_given(session)};
  if (session.values.given("after-advice")) answer.swing = RackSwing::after_advice;
  std::vector<LoftCurve> curves;
  {
    const std::size_t count = answer.folder.files.size();
    Progress progress(session, "pupils", count);
    answer.results = loft_curves(count, entrants_of(session, answer), lofts, answer.swing, advise_options(session),
                                 [&](std::size_t done) { progress.at(done); });
  }
  for (const CurveResult& result : answer.results) {
    if (result.curve) curves.push_back(*result.curve);
  }
  if (curves.empty()) {
    session.err << files_text(answer.folder, answer.results);
    throw InputError("no pupil's file in this folder can be used");
  }
  answer.rack = choose_rack(lofts, curves, places);
  session.out << (session.json ? rack_json(answer, session.units) : rack_text(answer, session.units));
  if (page.wanted()) page.write(rack_page(answer, session.units));
  return any_failed(answer.results) ? kInput : kDone;
}

}  // namespace loftwright::cli
