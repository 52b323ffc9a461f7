#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "core/text.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "progress.hpp"
#include "pupil_folders.hpp"

namespace loftwright::cli {

namespace {

namespace fs = std::filesystem;

// The pages of --html: one a pupil, written as the answers come, and the summary at the end.
class ClinicPages {
 public:
  ClinicPages(const Session& session, const PupilFolder& folder) : session_(session) {
    if (!session.values.given("html")) return;
    folder_ = session.values.text("html");
    names_ = clinic_page_names(folder.files);
    std::vector<std::string> all = names_;
    all.emplace_back(kClinicSummary);
    prepare_page_folder(folder_, all);
  }

  bool wanted() const { return !folder_.empty(); }

  void write(std::size_t i, const Entrant& entrant, const Advice& advice) const {
    write_page(folder_ / names_[i],
               advice_page(advice, entrant.pupil, entrant.setting, session_.catalogue, session_.units, entrant.text));
  }

  void write_summary(const ClinicAnswer& answer) const {
    write_page(folder_ / kClinicSummary, clinic_page(answer, names_, session_.units));
    session_.kept = "the pages are written";
    if (!session_.json && !session_.values.given("csv"))
      session_.out << "\n" << wrapped(fmt::format("Pages written: {}", printable((folder_ / kClinicSummary).string())));
  }

 private:
  const Session& session_;
  fs::path folder_;
  std::vector<std::string> names_;
};

std::string clinic_text(const ClinicAnswer& answer, UnitSystem units) {
  constexpr std::size_t kNameWidth = 14;  // what eighty columns leave
  std::string out, infeasible;
  for (const std::string& sentence : clinic_sentences(answer, units)) out += wrapped(printable(sentence));
  for (const std::string& sentence : infeasible_sentences(answer, units))
    infeasible += wrapped(printable(sentence), "  * ");
  TextTable rows = clinic_table(answer, units, kNameWidth);
  for (auto& row : rows.rows) {
    if (!row.empty()) row.front() = printable(row.front());
  }
  out += "\n" + laid_out(rows) + infeasible;
  const std::string files = files_text(answer.folder, answer.results);
  return out + academy_text(academy_sentences(answer, units)) + (files.empty() ? "" : "\n" + files) + "\n" +
         cautions_text(units);
}

// One line, not one for each doubt of each file.
void warn_of_doubts(const Session& session, const ClinicAnswer& answer) {
  std::vector<std::string> files;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (answer.results[i].row && answer.results[i].row->warnings > 0) files.push_back(answer.folder.files[i]);
  }
  constexpr std::size_t kMostNames = 12;
  if (!files.empty()) {
    warn(session, fmt::format("'loftwright check' has doubts about the {} {}", plural(files.size(), "file"),
                              listed_at_most(files, kMostNames)));
  }
}

}  // namespace

int cmd_clinic(const Session& session) {
  ClinicAnswer answer{pupil_folder(session.values.positional()), {}, academy_given(session)};
  const ClinicPages pages(session, answer.folder);
  AdviseOptions options = advise_options(session);
  const AeroModel second = session.catalogue.aero(kSecondAir);
  options.second_air = &second;
  {
    const std::size_t count = answer.folder.files.size();
    Progress progress(session, "pupils", count);
    ClinicWatch watch{{}, [&](std::size_t done) { progress.at(done); }};
    if (pages.wanted())
      watch.answered = [&](std::size_t i, const Entrant& e, const Advice& a) { pages.write(i, e, a); };
    answer.results = clinic(count, entrants_of(session, answer), options, watch);
  }
  warn_of_doubts(session, answer);
  if (session.json) {
    session.out << clinic_json(answer, session.units);
  } else if (session.values.given("csv")) {
    session.out << clinic_csv(answer, session.units);
    session.err << files_text(answer.folder, answer.results);
  } else {
    session.out << clinic_text(answer, session.units);
  }
  if (pages.wanted()) pages.write_summary(answer);
  if (any_failed(answer.results)) return kInput;
  const bool possible =
      std::any_of(answer.results.begin(), answer.results.end(), [](const ClinicResult& r) { return r.row->feasible; });
  return possible ? kDone : kNo;
}

}  // namespace loftwright::cli
