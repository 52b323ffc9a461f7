#include "options.hpp"

#include <algorithm>
#include <array>

#include "commands.hpp"
#include "option_rows.hpp"

namespace loftwright::cli {

namespace {

constexpr std::array kDemoExamples{Example{"demo", "the main job on an invented pupil"},
                                   Example{"demo --units metres", "the same in metres"}};
constexpr std::array kFlyExamples{
    Example{"fly --ball-speed 118mph --launch 11deg --spin 2700rpm", "a senior's drive in still air"},
    Example{"fly --ball-speed 118 --launch 11 --spin 2700 --wind 9 --wind-from 0", "into a 9 mph wind"}};
constexpr std::array kStrikeExamples{
    Example{"strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg", "hitting down with little loft"},
    Example{"strike --club-speed 82 --attack +3 --dynamic-loft 15 --toe 10mm", "hitting up, off the toe"},
    Example{"strike --club-speed 98 --attack -8 --dynamic-loft 7 --club-loft 9 --versus \"club-speed=103 attack=3 "
            "dynamic-loft=13 club-loft=10.5\"",
            "six lessons and a new driver: who did what"}};
constexpr std::array kArcExamples{
    Example{"arc --low-point -4.7in --plane 50deg --radius 1.6m", "what a low point behind the ball delivers"},
    Example{"arc --attack +3deg --plane 50deg --radius 1.6m", "the low point an attack angle needs"},
    Example{"arc --attack -8deg --path 4deg --low-point 9.8in", "plane and radius from what was measured"}};
constexpr std::array kAdviseExamples{
    Example{"advise data/pupils/demo.json", "a pupil's file"},
    Example{"advise data/pupils/demo.json --explain", "why, in words a pupil can repeat at home"},
    Example{"advise data/pupils/demo.json --html demo.html", "a page for the pupil to take home"},
    Example{"advise data/pupils/demo.json --ladder", "the lessons to the target, step by step"},
    Example{"advise --book data/books/demo.json", "the last session of a book, without retyping it"},
    Example{"advise data/pupils/demo.json --book data/books/demo.json --session 4",
            "a session of a book, and the pupil's file for the rest"},
    Example{"advise data/pupils/demo.json --json", "the same numbers for a program"}};
constexpr std::array kClinicExamples{
    Example{"clinic data/clinic", "a day's pupils in one table"},
    Example{"clinic data/clinic --html pages", "a page for each to take home, and one that lists them all"},
    Example{"clinic data/clinic --csv", "the table for a spreadsheet"}};
constexpr std::array kRackExamples{
    Example{"rack data/clinic --lofts 7.5,9,10.5,12,13.5,15 --places 2", "which two of six demo lofts to own"},
    Example{"rack data/clinic --lofts 7.5,9,10.5,12,13.5,15 --places 2 --after-advice",
            "the same once they swing as advised"}};
constexpr std::array kChartExamples{
    Example{"chart", "the best loft for 60 to 120 mph and 6 deg down to 6 deg up"},
    Example{"chart --goal total --show loft --turf firm --speed-low 65mph --speed-high 100mph",
            "for the longest total on firm turf"},
    Example{"chart --pupil data/pupils/clinic.json --csv", "under a pupil's limits, for a spreadsheet"},
    Example{"chart --html lofts.html", "a page to hang up"}};
constexpr std::array kShotsExamples{
    Example{"shots data/shots/lesson.csv", "what a device's export says, and what it does not"},
    Example{"shots data/shots/lesson.csv --odd leave-out --paste", "the lines for a pupil's file"}};
constexpr std::array kCompareExamples{
    Example{"compare data/academy/tamsin-before.csv data/academy/tamsin-after.csv", "did the lesson work?"},
    Example{"compare data/academy/ivo-before.csv data/academy/ivo-after.csv --pupil data/academy/ivo.json",
            "and what of the gain that 'advise' predicted was reached"},
    Example{"compare data/academy/tamsin-before.csv data/academy/tamsin-after.csv --html lesson.html",
            "the same as a page"}};
constexpr std::array kHeadsExamples{
    Example{"heads data/academy/ivo-heads.csv --pupil data/academy/ivo.json", "three drivers, one list, one goes home"},
    Example{"heads data/academy/ivo-heads.csv --in-hand \"Own 9\" --html heads.html", "the same as a page"}};
constexpr std::array kTuneExamples{
    Example{"tune data/pupils/demo.json --shots data/shots/tuning.csv", "what a pupil's shots say of head and ball"},
    Example{"tune data/pupils/demo.json --shots data/shots/tuning.csv --into marlow.json",
            "a pupil's file that advise takes"}};
constexpr std::array kCheckExamples{Example{"check data/pupils/demo.json", "look a pupil's file over"}};

constexpr std::array kBookAddExamples{Example{"book add data/books/demo.json --date 2026-04-11 --loft 12deg "
                                              "--club-speed 83mph --attack 1deg --dynamic-loft 14.5deg",
                                              "a session whose mean delivery was measured"},
                                      Example{"book add data/books/demo.json --date 2026-04-18 --shots "
                                              "data/shots/lesson.csv --notes \"ball an inch forward\"",
                                              "a session as a device exported it"},
                                      Example{"book add data/books/demo.json --date 2026-04-25 --shots "
                                              "data/shots/lesson.csv --pupil data/pupils/demo.json",
                                              "the same with hand, loft, head and course from the pupil's file"}};
constexpr std::array kBookListExamples{Example{"book list data/books/demo.json", "every session"}};
constexpr std::array kBookHistoryExamples{
    Example{"book history data/books/demo.json", "is carry rising?"},
    Example{"book history data/books/demo.json --html progress.html", "the same as a page"}};
constexpr std::array kBookEditExamples{
    Example{"book edit data/books/demo.json --session 2 --loft 12deg", "the loft was noted wrong"},
    Example{"book edit data/books/demo.json --session 3 --date 2026-02-20 --attack -2.2deg",
            "so were the day and the attack"}};
constexpr std::array kBookRemoveExamples{Example{"book remove data/books/demo.json --session 2", "take a session out"}};
constexpr std::array kBookUndoExamples{Example{"book undo data/books/demo.json", "take back the last change"}};
constexpr std::array kBookExportExamples{Example{"book export data/books/demo.json", "a table for a spreadsheet"}};
constexpr std::array kLessonsExamples{
    Example{"lessons data/academy/books", "what the lessons of an invented academy do"},
    Example{"lessons data/academy/books --into academy.json", "kept for 'advise --academy'"}};
constexpr std::array kPupilOrBook{
    Positional{.value = "PUPIL",
               .help = "the pupil's file (JSON); - reads it from standard input; with --book it may be left out",
               .unless = "book"}};
constexpr std::array kFolder{Positional{
    "FOLDER",
    "a folder of pupils' files: every *.json in it that is no other kind of file, not those in folders below"}};
constexpr std::array kBookFolder{Positional{"FOLDER", "a folder of books (JSON); its other files are left out"}};
constexpr std::array kPupilFile{Positional{"PUPIL", "the pupil's file (JSON)"}};
constexpr std::array kBook{Positional{"BOOK", "the pupil's book (JSON), a file in a folder of your choice"}};
constexpr std::array kList{Positional{"LIST", "a shot list (CSV); - reads it from standard input"}};
constexpr std::array kLists{Positional{"LIST", "one or more shot lists (CSV); - reads one from standard input", true}};
constexpr std::array kTwoLists{Positional{"BEFORE", "the shot list (CSV) from before; - reads it from standard input"},
                               Positional{"AFTER", "the shot list from after; or this one may be -"}};
constexpr std::array kFile{Positional{"FILE",
                                      "a pupil's file, a book, an academy's file, a model's (ball, head, turf, air "
                                      "resistance), words for columns, or a shot list (CSV)"}};

constexpr std::string_view kDeliverySigns =
    "Attack is positive upwards. Path and face are positive to the right of the target, for either hand; so is every "
    "side. "
    "Toe is positive towards the toe, high up the face. A spin axis tilted positive curves the ball right.";

constexpr std::array kCommands{
    Command{
        .name = "demo",
        .summary = "the main job at once, on an invented pupil",
        .description =
            "Will a change of technique, or a change of driver loft, buy more yards? Answers it for an invented pupil "
            "who is inside the program, exactly as 'advise' would for yours.",
        .signs = "",
        .positionals = {},
        .options = kDemoOptions,
        .examples = kDemoExamples,
        .run = cmd_demo},
    Command{.name = "fly",
            .summary = "what one launch does: ball speed, launch, spin -> carry, total",
            .description = "Ball speed, launch and spin go in; carry, run, total, apex and descent angle come out.",
            .signs = "Launch direction and side are positive to the right of the target. A spin axis tilted positive "
                     "curves the ball right.",
            .positionals = {},
            .options = kFlyOptions,
            .examples = kFlyExamples,
            .run = cmd_fly},
    Command{.name = "strike",
            .summary = "what one delivery does: club, attack, loft -> launch, carry, total",
            .description = "How the clubhead meets the ball goes in; the launch, the flight and the run come out.",
            .signs = kDeliverySigns,
            .positionals = {},
            .options = kStrikeOptions,
            .examples = kStrikeExamples,
            .run = cmd_strike},
    Command{.name = "advise",
            .summary = "technique or loft: where a pupil's yards are",
            .description =
                "Will a change of technique, or a change of driver loft, buy this pupil more yards? Solves four cases "
                "from the "
                "same delivery (as is, loft only, technique only, both) within the lofts on offer, the pupil's "
                "reach and every limit in the file; then says in one sentence what to change, how sure that is, what "
                "each step is worth, how little change of attack each loft needs, what holds the answer, and how to "
                "set up for it.",
            .signs = kDeliverySigns,
            .positionals = kPupilOrBook,
            .options = kAdviseOptions,
            .examples = kAdviseExamples,
            .run = cmd_advise},
    Command{
        .name = "clinic",
        .summary = "a folder of pupils: one table, and a page for each",
        .description =
            "Answers every pupil's file of a folder as 'advise' would, in one table: what to change, how sure that "
            "is, the loft and attack it comes to, what it adds to the average drive, the fairways held, and what to "
            "measure first. A file with mistakes is named with what is wrong, the others are answered, and the "
            "command ends with exit 3.",
        .signs = "Attack is positive upwards.",
        .positionals = kFolder,
        .options = kClinicOptions,
        .examples = kClinicExamples,
        .run = cmd_clinic},
    Command{
        .name = "rack",
        .summary = "which demo lofts an academy should own for its pupils",
        .description =
            "Of the lofts named, chooses as many as there are places so that the pupils of a folder together lose "
            "least: each the average drive with the best loft between the least and the most of the list, less that "
            "with the best loft of the rack. Exact, not a guess. Says what each further loft would save, so that it "
            "shows where buying stops paying.",
        .signs = "",
        .positionals = kFolder,
        .options = kRackOptions,
        .examples = kRackExamples,
        .run = cmd_rack},
    Command{
        .name = "arc",
        .summary = "set-up geometry: low point, plane, radius <-> attack, path",
        .description =
            "Near the ball the clubhead runs on a circle in a tilted plane. Any three of its numbers give the others: "
            "--low-point --plane --radius give attack and path; --attack --plane --radius give the low point; "
            "--attack --path --low-point give plane and radius.",
        .signs =
            "A low point ahead of the ball is positive. Attack is positive upwards. Path and base line are positive to "
            "the right of the target, for either hand.",
        .positionals = {},
        .options = kArcOptions,
        .examples = kArcExamples,
        .run = cmd_arc},
    Command{
        .name = "chart",
        .summary = "a table for the wall: club speed and attack -> loft, launch, spin, carry",
        .description =
            "For each club speed and attack the loft to deliver for the longest carry or total, and the launch, spin, "
            "carry and total it gives, struck at the face centre with path and face square. A player who delivers the "
            "loft that stands on the club reads it as that.",
        .signs = "Attack is positive upwards.",
        .positionals = {},
        .options = kChartOptions,
        .examples = kChartExamples,
        .run = cmd_chart},
    Command{.name = "shots",
            .summary = "a shot list: means, scatter, what goes together, what was not measured",
            .description = "Reads a device's export or a list typed by hand: which column is what, which rows cannot "
                           "be shots and why, which "
                           "shots are outliers; the mean of every reading with its error, the scatter, what goes "
                           "together; where both sides of the "
                           "impact were measured, whether they agree; what was not measured, computed by the model; "
                           "and the lines for a pupil's "
                           "file.",
            .signs = kDeliverySigns,
            .positionals = kList,
            .options = kShotsOptions,
            .examples = kShotsExamples,
            .run = cmd_shots},
    Command{.name = "compare",
            .summary = "before and after: did it change, and which change made which yards",
            .description =
                "Two shot lists of one pupil: the difference of every reading with its interval; whether carry (or "
                "total) really "
                "changed, and if that cannot be told yet, how many more shots would tell; which change made which part "
                "of it, by the "
                "model; and what was reached of the gain that was predicted. Exit 1 when there is no real difference.",
            .signs = kDeliverySigns,
            .positionals = kTwoLists,
            .options = kCompareOptions,
            .examples = kCompareExamples,
            .run = cmd_compare},
    Command{.name = "heads",
            .summary = "drivers side by side: which goes furthest, and can they be told apart",
            .description =
                "Shots of two or more drivers by one player on one day, in one list with a column that names the club "
                "or a list for each: ranked by the average drive with its scatter, with intervals that hold for all "
                "heads at once; which can be told apart, and how many more shots would tell; fairways held; and what "
                "the model makes of the mean delivery with each, so that a bad day with one head is seen. Exit 1 when "
                "no head is told apart from the one in hand (or, nobody having said which that is, from the leader).",
            .signs = kDeliverySigns,
            .positionals = kLists,
            .options = kHeadsOptions,
            .examples = kHeadsExamples,
            .run = cmd_heads},
    Command{.name = "tune",
            .summary = "head and ball as a pupil's own shots show them",
            .description =
                "Fits restitution, tangential restitution, drag and lift to measured shots, with the uncertainty about "
                "any model as the "
                "start: what they are, how sure, what the shots cannot tell; whether shots that were left out are "
                "predicted "
                "better for it (exit 0) or not (exit 1); and the block for the pupil's file that 'advise' then uses.",
            .signs = "",
            .positionals = kPupilFile,
            .options = kTuneOptions,
            .examples = kTuneExamples,
            .run = cmd_tune},
    Command{
        .name = "book add",
        .summary = "keep a session in a pupil's book",
        .description =
            "Adds a session to a pupil's book, and begins the book when there is none: the day, notes, the club, the "
            "conditions, and the delivery, given as such or as a shot list. The drive of that delivery is computed "
            "under "
            "the same conditions for every session, so that sessions can be compared.",
        .signs = kDeliverySigns,
        .positionals = kBook,
        .options = kBookAddOptions,
        .examples = kBookAddExamples,
        .run = cmd_book_add},
    Command{.name = "book list",
            .summary = "the sessions in a book",
            .description = "Lists the sessions of a book, oldest first.",
            .signs = "",
            .positionals = kBook,
            .options = {},
            .examples = kBookListExamples,
            .run = cmd_book_list},
    Command{
        .name = "book history",
        .summary = "is carry rising, and how sure is that; the best session so far",
        .description =
            "Carry under the same conditions, session by session; the straight line through them (least squares) with "
            "its 95 % interval; and the best session so far.",
        .signs = "",
        .positionals = kBook,
        .options = kBookHistoryOptions,
        .examples = kBookHistoryExamples,
        .run = cmd_book_history},
    Command{.name = "book edit",
            .summary = "correct a session of a book",
            .description =
                "Corrects what was noted wrong of a session: the day, notes, loft, head, how the sleeve was set (from "
                "the pupil's file), ball, turf, weather, what advice promised, and of a delivery that was typed its "
                "numbers. What is not given stays, and so does "
                "the number of the session. "
                "The carry and total under the same conditions are computed anew when the head or the delivery "
                "changes. What a shot list measured stays as it was measured. 'book undo' takes the correction back.",
            .signs = kDeliverySigns,
            .positionals = kBook,
            .options = kBookEditOptions,
            .examples = kBookEditExamples,
            .run = cmd_book_edit},
    Command{.name = "book remove",
            .summary = "take a session out of a book",
            .description = "Takes one session out. 'book undo' brings it back.",
            .signs = "",
            .positionals = kBook,
            .options = kBookRemoveOptions,
            .examples = kBookRemoveExamples,
            .run = cmd_book_remove},
    Command{.name = "book undo",
            .summary = "take back the last change of a book",
            .description = "Brings back the version before the last change. Undoing twice brings back what was undone.",
            .signs = "",
            .positionals = kBook,
            .options = {},
            .examples = kBookUndoExamples,
            .run = cmd_book_undo},
    Command{
        .name = "book export",
        .summary = "a book as a table (CSV)",
        .description =
            "Writes a row a session to standard output, comma-separated with a row of heads (RFC 4180); each head "
            "names its unit: those of the book's file, or with --units yards yards, miles an hour, feet and degrees F.",
        .signs = "",
        .positionals = kBook,
        .options = {},
        .examples = kBookExportExamples,
        .run = cmd_book_export},
    Command{.name = "lessons",
            .summary = "what your own lessons do, from all your books",
            .description =
                "How far delivered loft follows the attack, what that costs in club speed, and how much of what was "
                "promised was reached, in the books of a whole academy: pooled over the pupils, so that few say little "
                "and many put their own numbers in the literature's place; and whether past predictions promised too "
                "much. A book that cannot be read is named, the rest is answered, and the exit code is 3.",
            .signs = "",
            .positionals = kBookFolder,
            .options = kLessonsOptions,
            .examples = kLessonsExamples,
            .run = cmd_lessons},
    Command{
        .name = "check",
        .summary = "mistakes in a file, each with its place",
        .description =
            "Reads any of the program's own files and lists what is wrong or unusual, each with its place and what is "
            "allowed. Exit 0 when the file can be used (warnings allowed), 3 when it cannot.",
        .signs = "",
        .positionals = kFile,
        .options = {},
        .examples = kCheckExamples,
        .run = cmd_check},
};

}  // namespace

std::span<const Command> commands() { return kCommands; }
std::span<const Option> common_options() { return kCommon; }

bool is_in_group(const Command& command, std::string_view group) {
  return group.empty() || (command.name.starts_with(group) && command.name.substr(group.size()).starts_with(' '));
}

std::vector<const Option*> options_of(const Command& command) {
  std::vector<const Option*> out;
  for (const Options& set : command.options) {
    for (const Option& option : set) out.push_back(&option);
  }
  for (const Option& option : kCommon) out.push_back(&option);
  return out;
}

}  // namespace loftwright::cli
