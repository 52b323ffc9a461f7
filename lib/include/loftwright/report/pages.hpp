/// @file
/// Answers as pages to take home: each one HTML file that needs nothing else, neither a network nor, to be read,
/// scripts. The same input gives the same bytes. Everything a user wrote is escaped.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/advise/chart.hpp"
#include "loftwright/book/book.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/shots/detail/change.hpp"
#include "loftwright/shots/heads.hpp"

namespace loftwright {

/// Advice, for the pupil first and for the coach after. `input` is the pupil's file as text, shown so that the page can
/// be made again.
std::string advice_page(const Advice& advice, const Pupil& pupil, const Setting& setting, const Catalogue& catalogue,
                        UnitSystem units, std::string_view input, const BesideAdvice& beside = {});

/// Before the work is done: throws InputError when the tables would make the page too large.
void check_chart_page(const ChartAxes& axes);

/// The loft table for the wall of a clinic: loft to deliver and what it gives, as maps over club speed and attack and
/// as tables.
std::string chart_page(const Chart& chart, std::string_view name, const Setting& setting, UnitSystem units);

/// Before and after a lesson: every shot of both lists along the goal, what made the change, and the coach's tables.
/// `inputs`: the files read, by name and as text, shown so that the page can be made again; those too long to stand in
/// a page are named only.
std::string compare_page(const CompareAnswer& answer, UnitSystem units,
                         const std::vector<std::pair<std::string, std::string>>& inputs);

/// Heads side by side: every shot head by head, how much further each goes than the one in hand, and the coach's
/// tables. `name` of the pupil, may be empty; `inputs` as for compare_page.
std::string heads_page(const HeadsAnswer& answer, std::string_view name, const Setting& setting, UnitSystem units,
                       const std::vector<std::pair<std::string, std::string>>& inputs);

/// A pupil's progress: carry over the sessions with its trend, the delivery of each, and the coach's table. The latest
/// sessions alone are listed when there are many; all are drawn.
std::string history_page(const Book& book, const Catalogue& catalogue, UnitSystem units);

/// The name of each pupil's page, in the order of the files: "tamsin.json" has "tamsin.html". No two are the same, nor
/// that of the summary, whatever the case of their letters.
std::vector<std::string> clinic_page_names(const std::vector<std::string>& files);
inline constexpr std::string_view kClinicSummary = "index.html";  ///< the page that lists all

/// The summary of a clinic: every pupil with the answer in a row and a link to the page of that name, what each could
/// gain as a picture, and what could not be used. `pages`: as clinic_page_names has them.
std::string clinic_page(const ClinicAnswer& answer, const std::vector<std::string>& pages, UnitSystem units);

/// Which lofts to own: what is lost with each number of them as a picture, and who takes which.
std::string rack_page(const RackAnswer& answer, UnitSystem units);

/// Before the work is done: makes `folder` if it is missing. Throws InputError when it cannot be made, when anything of
/// these names is in it that is no page of ours, or cannot be replaced.
void prepare_page_folder(const std::filesystem::path& folder, const std::vector<std::string>& names);
/// What the books of an academy say: the numbers, the calibration of promises, every book. `name` is the folder's.
std::string lessons_page(const Lessons& lessons, const AcademyFolder& folder, std::string_view name, UnitSystem units);

/// Throws InputError when `file` does not end in .html or .htm (so that no other file is written over by mistake), is
/// there and no plain file, or stands in no folder.
void check_page_name(const std::filesystem::path& file);

/// check_page_name, then the page whole or not at all: who looks at `file` sees the old text or the new. Throws Error
/// when the machine cannot write it.
void write_page(const std::filesystem::path& file, std::string_view html);

}  // namespace loftwright
