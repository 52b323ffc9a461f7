// The rows of the table of options, in sets; options.cpp says which command takes which.
#pragma once

#include <algorithm>
#include <array>

#include "loftwright/advise/ladder.hpp"
#include "loftwright/shots/compare.hpp"
#include "loftwright/swing/technique.hpp"
#include "options.hpp"

namespace loftwright::cli {

// Rows that say something only with another option.
constexpr auto needing(auto rows, std::string_view option) {
  for (Option& row : rows) row.needs = option;
  return rows;
}

// A row stays one paragraph.
// clang-format off

inline constexpr std::array kUnitWords{Word{"yards"}, Word{"metres"}};
inline constexpr std::array kHandWords{Word{"right"}, Word{"left"}};
inline constexpr std::array kBearingWords{Word{"ahead", "0deg"}, Word{"right", "90deg"}, Word{"behind", "180deg"},
                                   Word{"left", "-90deg"}};
inline constexpr std::array kProfileWords{Word{"logarithmic"}, Word{"power"}, Word{"uniform"}};

inline constexpr std::array kCommon{
    Option{.name = "units", .value = "SYSTEM", .help = "what the screen shows: yards (yd, ft, mph, in) or metres (m, m/s, cm)",
           .group = "Common", .kind = Kind::word, .fallback = "yards", .words = kUnitWords},
    Option{.name = "json", .help = "the same numbers for programs, as JSON", .group = "Common", .kind = Kind::flag},
    Option{.name = "quiet", .help = "no warnings and no progress; the answer stays whole", .group = "Common", .kind = Kind::flag},
    Option{.name = "data", .value = "FOLDER",
           .help = "your own balls, heads, turfs and air models, looked in before the built-in ones; without it the environment variable "
                   "LOFTWRIGHT_DATA says where", .group = "Common", .kind = Kind::folder},
    Option{.name = "seed", .value = "NUMBER", .help = "where random draws start, in commands that draw: the same seed gives the same answer",
           .group = "Common", .kind = Kind::seed, .fallback = "1"},
    Option{.name = "threads", .value = "NUMBER", .help = "cores to use, in commands that can share their work; 0: all", .group = "Common",
           .kind = Kind::integer, .range = {0, 1024}, .fallback = "0"},
    Option{.name = "help", .help = "this text", .group = "Common", .kind = Kind::flag},
    Option{.name = "version", .help = "the program's version", .group = "Common", .kind = Kind::flag},
};

inline constexpr std::array kLaunch{
    option_for(Quantity::ball_speed, {.name = "ball-speed", .value = "SPEED", .group = "Launch", .required = true}),
    option_for(Quantity::launch, {.name = "launch", .value = "ANGLE", .group = "Launch", .required = true}),
    option_for(Quantity::spin, {.name = "spin", .value = "SPIN", .group = "Launch", .required = true}),
    option_for(Quantity::azimuth, {.name = "azimuth", .value = "ANGLE", .group = "Launch", .fallback = "0deg"}),
    option_for(Quantity::tilt, {.name = "tilt", .value = "ANGLE", .group = "Launch", .fallback = "0deg"}),
};

inline constexpr std::array kDelivery{
    option_for(Quantity::club_speed, {.name = "club-speed", .value = "SPEED", .group = "Delivery", .required = true}),
    option_for(Quantity::attack, {.name = "attack", .value = "ANGLE", .group = "Delivery", .required = true}),
    option_for(Quantity::dynamic_loft, {.name = "dynamic-loft", .value = "ANGLE", .group = "Delivery", .required = true}),
    option_for(Quantity::path, {.name = "path", .value = "ANGLE", .group = "Delivery", .fallback = "0deg"}),
    option_for(Quantity::face, {.name = "face", .value = "ANGLE", .group = "Delivery", .fallback = "0deg"}),
    option_for(Quantity::toe, {.name = "toe", .value = "LENGTH", .group = "Delivery", .fallback = "0mm"}),
    option_for(Quantity::high, {.name = "high", .value = "LENGTH", .group = "Delivery", .fallback = "0mm"}),
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = "Delivery", .kind = Kind::word, .fallback = "right",
           .words = kHandWords},
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json", .group = "Delivery",
           .kind = Kind::head, .fallback = "modern-driver"},
    option_for(Quantity::loft, {.name = "club-loft", .value = "ANGLE",
           .help = "loft on the club itself; known of two strikes, it tells what the club did from what the hands did", .group = "Delivery"}),
};

inline constexpr std::array kVersus{
    Option{.name = "versus", .value = "CHANGES",
           .help = "a second strike that differs by these options, as in \"attack=2deg dynamic-loft=13deg turf=firm\": both are shown, and who "
                   "did what: how many of the yards came of speed, swing, club and hands", .group = "Second strike", .kind = Kind::text},
    Option{.name = "follow", .value = "ANGLE",
           .help = "how much the delivered loft rises for each degree that the attack rises: that loft is the swing's, the rest the hands'",
           .group = "Second strike", .dimension = Dimension::angle, .unit = "deg", .range = {0.0, kMostFollow, "deg"}, .fallback = "0.85deg",
           .needs = "versus"},
};

inline constexpr std::array kCourse{
    Option{.name = "ball", .value = "BALL", .help = "id of the ball, or a file that ends in .json", .group = kCourseGroup, .kind = Kind::ball,
           .fallback = "reference"},
    Option{.name = "turf", .value = "TURF", .help = "firm, medium or soft, or a file that ends in .json", .group = kCourseGroup,
           .kind = Kind::turf, .fallback = "medium"},
    option_for(Quantity::altitude, {.name = "altitude", .value = "HEIGHT", .group = kCourseGroup, .fallback = "0m"}),
    option_for(Quantity::pressure, {.name = "pressure", .value = "PRESSURE", .group = kCourseGroup, .excludes = "altitude"}),
    option_for(Quantity::temperature, {.name = "temperature", .value = "TEMPERATURE", .group = kCourseGroup, .fallback = "20C"}),
    option_for(Quantity::humidity, {.name = "humidity", .value = "PERCENT", .group = kCourseGroup, .fallback = "50%"}),
    option_for(Quantity::wind, {.name = "wind", .value = "SPEED", .group = kCourseGroup, .fallback = "0mph", .needs = "wind-from"}),
    option_for(Quantity::wind_from, {.name = "wind-from", .value = "BEARING",
           .help = "where the wind blows from: ahead, behind, left or right, or a bearing from the target line (0deg ahead, 90deg right, 180deg "
                   "behind)", .group = kCourseGroup, .fallback = "0deg", .words = kBearingWords, .needs = "wind"}),
    option_for(Quantity::wind_height, {.name = "wind-height", .value = "HEIGHT", .group = kCourseGroup, .fallback = "10m", .needs = "wind"}),
    Option{.name = "wind-profile", .value = "LAW",
           .help = "how the wind dies down towards the ground: logarithmic, power, or uniform (not at all)", .group = kCourseGroup,
           .kind = Kind::word, .fallback = "logarithmic", .words = kProfileWords, .needs = "wind"},
};

inline constexpr std::array kArc{
    option_for(Quantity::low_point, {.name = "low-point", .value = "LENGTH", .group = "Arc"}),
    option_for(Quantity::plane, {.name = "plane", .value = "ANGLE", .group = "Arc"}),
    option_for(Quantity::radius, {.name = "radius", .value = "LENGTH", .group = "Arc"}),
    option_for(Quantity::attack, {.name = "attack", .value = "ANGLE", .group = "Arc"}),
    option_for(Quantity::path, {.name = "path", .value = "ANGLE", .group = "Arc"}),
    option_for(Quantity::swing_direction, {.name = "swing-direction", .value = "ANGLE", .group = "Arc", .fallback = "0deg"}),
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = "Arc", .kind = Kind::word, .fallback = "right",
           .words = kHandWords},
};

inline constexpr std::array kPage{
    Option{.name = "html", .value = "FILE",
           .help = "write a page beside the answer, for the pupil to take home: one file that opens in any browser and prints on two sheets; its "
                   "name ends in .html", .group = "What is shown", .kind = Kind::file},
};

inline constexpr std::array kAdvise{
    Option{.name = "draws", .value = "NUMBER",
           .help = "how many draws of everything uncertain, each with a drive of its own, the gains are taken over (in whole 256s); 0: no "
                   "probabilities, an answer at once", .group = "How sure", .kind = Kind::integer, .range = {0, 1000000}, .fallback = "32768"},
    Option{.name = "explain", .help = "only why, in plain words for the pupil, the verdict and the cautions", .group = "What is shown",
           .kind = Kind::flag},
};

inline constexpr std::array kDraws{kAdvise[0]};
inline constexpr auto kAdviceDraws = needing(kDraws, "after-advice");

inline constexpr std::array kClinic{
    Option{.name = "csv", .help = "a row a pupil, comma-separated, for a spreadsheet", .group = "What is shown", .kind = Kind::flag,
           .excludes = "json"},
    Option{.name = "html", .value = "FOLDER",
           .help = "write a page for each pupil into this folder, as 'advise --html' writes it, and index.html, which lists them all; the folder "
                   "is made if it is missing, and nothing but our own pages in it is written over", .group = "What is shown",
           .kind = Kind::file},
};

inline constexpr std::array kRack{
    Option{.name = "lofts", .value = "LIST", .help = "the lofts that could be bought, with commas between: 9deg,10.5deg,12deg; at most 20",
           .group = "Question", .kind = Kind::text, .required = true},
    Option{.name = "places", .value = "NUMBER", .help = "how many of them the rack is to hold, at most all", .group = "Question",
           .kind = Kind::integer, .range = {1, 20}, .required = true},
    Option{.name = "after-advice",
           .help = "for the swings as 'clinic' would have them: each pupil with the attack that the verdict ends with, in place of today's",
           .group = "Question", .kind = Kind::flag},
};

inline constexpr std::array kFromBook{
    Option{.name = "book", .value = "BOOK",
           .help = "advise on a session of this book: its delivery, scatter, number of drives and loft; with PUPIL the file gives all the "
                   "rest, without it the session and the book give head, hand, turf and weather", .group = "Pupil", .kind = Kind::file},
    Option{.name = "session", .value = "NUMBER", .help = "number of the session, as 'book list' shows it; without it the last by date",
           .group = "Pupil", .kind = Kind::integer, .range = {1, 1000000000}, .needs = "book"},
};

inline constexpr std::array kLadder{
    Option{.name = "ladder",
           .help = "a lesson ladder: from the swing now to the verdict's target in steps a body can make, each with what it gives, its "
                   "set-up and the sign that it is reached; on the screen in place of the rest, on the page and in JSON beside it",
           .group = "Lesson ladder", .kind = Kind::flag, .excludes = "explain"},
    Option{.name = "step", .value = "ANGLE", .help = "the most by which a step changes the attack; the steps are equal",
           .group = "Lesson ladder", .dimension = Dimension::angle, .unit = "deg",
           .range = {kLeastLadderStep / kDegree, kMostLadderStep / kDegree, "deg"}, .fallback = "1.5deg", .needs = "ladder"},
};

inline constexpr std::array kAcademy{
    Option{.name = "academy", .value = "FILE",
           .help = "what your own lessons do, as 'lessons --into' wrote it: taken where the pupil's file says nothing of follow and speed cost",
           .group = "How sure", .kind = Kind::file},
};

// Lofts alone are the same whatever follows the attack.
inline constexpr auto kAdviceAcademy = needing(kAcademy, "after-advice");

inline constexpr std::array kOddWords{Word{"keep"}, Word{"leave-out"}};
inline constexpr std::array kDecimalWords{Word{"point"}, Word{"comma"}};

inline constexpr std::array kSession{
    Option{.name = "date", .value = "DAY", .help = "the day of the session, as 2026-03-14; without it today", .group = "Session",
           .kind = Kind::day},
    Option{.name = "notes", .value = "TEXT", .help = "what was worked on, in your own words", .group = "Session", .kind = Kind::text},
    Option{.name = "name", .value = "NAME",
           .help = "the pupil's name, written into a new book (without it the file's own name) and compared with that of an old one",
           .group = "Session", .kind = Kind::text},
    Option{.name = "handed", .value = "HAND",
           .help = "right or left, written into a new book (without it right) and compared with that of an old one", .group = "Session",
           .kind = Kind::word, .words = kHandWords},
    option_for(Quantity::loft, {.name = "loft", .value = "ANGLE", .group = "Session"}),
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json", .group = "Session",
           .kind = Kind::head, .fallback = "modern-driver"},
    Option{.name = "pupil", .value = "PUPIL",
           .help = "the pupil's file: name, hand, loft, head, ball, turf and weather of the session, unless an option says otherwise",
           .group = "Session", .kind = Kind::file},
    Option{.name = "shots", .value = "FILE", .help = "a shot list (CSV): its means are the delivery, and its spreads are kept beside them",
           .group = "Shot list", .kind = Kind::file},
};

// How a shot list is read.
inline constexpr std::array kShotList{
    Option{.name = "map", .value = "KEY=HEAD",
           .help = "what a column holds, before all words: attack=\"Angle (deg)\"; ball_speed_mps=\"Ball Speed\" says the unit too, and a minus "
                   "before the key turns the signs round", .group = "Shot list", .kind = Kind::text, .repeats = true},
    Option{.name = "columns", .value = "FILE", .help = "your own words for the columns of shot lists, in place of the built-in ones",
           .group = "Shot list", .kind = Kind::file},
    Option{.name = "club", .value = "NAME", .help = "only the shots of this club, as its column names it", .group = "Shot list",
           .kind = Kind::text},
    Option{.name = "decimal", .value = "SIGN", .help = "how the list writes decimals, point or comma; without it found from its cells",
           .group = "Shot list", .kind = Kind::word, .words = kDecimalWords},
    Option{.name = "odd", .value = "WHAT", .help = "shots that stand far out from the others: keep or leave-out", .group = "Shot list",
           .kind = Kind::word, .fallback = "keep", .words = kOddWords},
};

inline constexpr auto kSessionList = needing(kShotList, "shots");

// The delivery of a session that has no shot list.
inline constexpr auto kSessionDelivery = [] {
  std::array<Option, 7> out;
  std::copy_n(kDelivery.begin(), out.size(), out.begin());
  for (Option& option : out) option.excludes = "shots";
  return out;
}();

inline constexpr std::array kClearWords{Word{"notes"}, Word{"loft"}, Word{"course"}, Word{"advice"}};

// What may be corrected of a session.
inline constexpr std::array kCorrection{
    Option{.name = "session", .value = "NUMBER", .help = "number of the session, as 'book list' shows it", .group = "Which",
           .kind = Kind::integer, .range = {1, 1000000000}, .required = true},
    Option{.name = "date", .value = "DAY", .help = "the day it was, as 2026-03-14", .group = "Correction", .kind = Kind::day},
    Option{.name = "notes", .value = "TEXT", .help = "notes in place of those that are there", .group = "Correction", .kind = Kind::text},
    option_for(Quantity::loft, {.name = "loft", .value = "ANGLE", .help = "loft of the driver as marked", .group = "Correction"}),
    Option{.name = "head", .value = "HEAD",
           .help = "id of the driver head, or a file that ends in .json; carry and total are then computed anew", .group = "Correction",
           .kind = Kind::head},
    Option{.name = "pupil", .value = "PUPIL",
           .help = "the pupil's file: head, loft and what the sleeve is set to are taken from it, and nothing else", .group = "Correction",
           .kind = Kind::file},
    Option{.name = "advice", .value = "FILE",
           .help = "an answer of 'advise --json' on this session's swing: what it promised is kept, in place of what was promised before",
           .group = "Correction", .kind = Kind::file},
    Option{.name = "clear", .value = "WHAT", .help = "take out notes, loft, course (ball, turf and weather) or advice (what was promised)", .group = "Correction",
           .kind = Kind::word, .words = kClearWords, .repeats = true},
};

// The delivery of a session that was typed, and its course: what is given is corrected, the rest stays.
template <std::size_t N>
constexpr auto corrected(const auto& rows) {
  std::array<Option, N> out;
  std::copy_n(rows.begin(), N, out.begin());
  for (Option& option : out) {
    option.required = false;
    option.fallback = "";
  }
  return out;
}
inline constexpr auto kCorrectedDelivery = corrected<7>(kDelivery);
inline constexpr auto kCorrectedCourse = corrected<kCourse.size()>(kCourse);

// Who hit the shots of a list and with what: what the model needs to work out what was not measured.
inline constexpr std::array kPlayer{
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = kPlayerGroup, .kind = Kind::word, .fallback = "right",
           .words = kHandWords},
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json", .group = kPlayerGroup,
           .kind = Kind::head, .fallback = "modern-driver"},
};

inline constexpr std::array kGoalWords{Word{"carry"}, Word{"total"}};

inline constexpr std::array kCompare{
    Option{.name = "goal", .value = "WHAT", .help = "what was to grow: carry or total; without it the goal of --pupil, else carry",
           .group = "Question", .kind = Kind::word, .words = kGoalWords},
    option_for(Quantity::worthwhile, {.name = "worthwhile", .value = "LENGTH",
           .help = "the smallest change that matters; without it that of --pupil, else 3 yd", .group = "Question"}),
    Option{.name = "confidence", .value = "PERCENT", .help = "of every interval", .group = "Question", .dimension = Dimension::ratio,
           .unit = "%", .range = {50, 99.99, "%"}, .fallback = "95%"},
    Option{.name = "pupil", .value = "PUPIL",
           .help = "the pupil's file from before: hand, club, ball and weather, and the gains 'advise' predicts from it, of which is said what "
                   "was reached", .group = "Question", .kind = Kind::file},
    Option{.name = "predicted", .value = "LENGTH", .help = "a gain that was predicted, of which is said what was reached", .group = "Question",
           .unit = "yd", .range = {0.1, kMostPredicted, "m"}},
    Option{.name = "changed", .value = "CHANGES",
           .help = "what else was different after, as in \"club-loft=12deg temperature=9C turf=firm head=old.json\": the loft on the club has a "
                   "share of its own, the rest that of the conditions", .group = "Question", .kind = Kind::text},
};

inline constexpr std::array kHeads{
    Option{.name = "in-hand", .value = "NAME",
           .help = "the head that is played now, by its name in the list; without it the one whose name alone holds the loft of --pupil's club",
           .group = "Question", .kind = Kind::text},
    Option{.name = "without", .value = "NAME", .help = "a club of the lists to pass over, as the 7 iron of the warm-up", .group = "Question",
           .kind = Kind::text, .repeats = true},
    Option{.name = "goal", .value = "WHAT", .help = "what is to be longest: carry or total; without it the goal of --pupil, else carry",
           .group = "Question", .kind = Kind::word, .words = kGoalWords},
    option_for(Quantity::worthwhile, {.name = "worthwhile", .value = "LENGTH",
           .help = "the smallest difference worth another driver; without it that of --pupil, else 3 yd", .group = "Question"}),
    Option{.name = "confidence", .value = "PERCENT", .help = "with which all intervals hold at once", .group = "Question",
           .dimension = Dimension::ratio, .unit = "%", .range = {50, 99.99, "%"}, .fallback = "95%"},
    option_for(Quantity::fairway, {.name = "fairway", .value = "WIDTH", .help = "width of the fairway; without it that of --pupil, else 35 yd",
           .group = "Question"}),
    Option{.name = "pupil", .value = "PUPIL", .help = "the pupil's file: goal, prices, fairway, club, hand, ball and weather", .group = "Question",
           .kind = Kind::file},
};

inline constexpr std::array kClubLoft{
    option_for(Quantity::loft, {.name = "club-loft", .value = "ANGLE",
           .help = "loft on the club, before and after unless --changed says otherwise; without it that of --pupil, before: it tells what the "
                   "club did from what the hands did", .group = kPlayerGroup}),
};

inline constexpr std::array kChartWords{Word{"all"}, Word{"loft"}, Word{"best-carry"}, Word{"best-total"}, Word{"window"}, Word{"launch"}, Word{"spin"}, Word{"carry"}, Word{"total"}};

inline constexpr std::array kChart{
    option_for(Quantity::club_speed, {.name = "speed-low", .value = "SPEED", .help = "slowest club speed of the table", .group = "Table",
           .fallback = "60mph"}),
    option_for(Quantity::club_speed, {.name = "speed-high", .value = "SPEED", .help = "fastest", .group = "Table", .fallback = "120mph"}),
    Option{.name = "speed-step", .value = "SPEED", .help = "from one to the next", .group = "Table", .dimension = Dimension::speed,
           .unit = "mph", .range = {0.1, about(Quantity::club_speed).allowed.high, "m/s"}, .fallback = "5mph"},
    option_for(Quantity::attack, {.name = "attack-low", .value = "ANGLE", .help = "steepest downward attack of the table", .group = "Table",
           .fallback = "-6deg"}),
    option_for(Quantity::attack, {.name = "attack-high", .value = "ANGLE", .help = "steepest upward attack", .group = "Table",
           .fallback = "6deg"}),
    Option{.name = "attack-step", .value = "ANGLE", .help = "from one to the next", .group = "Table", .dimension = Dimension::angle,
           .unit = "deg", .range = {0.05, 40, "deg"}, .fallback = "1deg"},
    option_for(Quantity::loft, {.name = "loft-low", .value = "ANGLE", .help = "least loft that may be delivered", .group = "Table",
           .fallback = "4deg"}),
    option_for(Quantity::loft, {.name = "loft-high", .value = "ANGLE", .help = "most loft that may be delivered", .group = "Table",
           .fallback = "30deg"}),
    Option{.name = "goal", .value = "WHAT", .help = "what the loft is best for: carry or total; without it the goal of --pupil, else carry",
           .group = "Question", .kind = Kind::word, .words = kGoalWords},
    Option{.name = "pupil", .value = "PUPIL", .help = "a pupil's file: its goal, limits, head, ball and weather hold for the whole table",
           .group = "Question", .kind = Kind::file},
    Option{.name = "show", .value = "WHAT",
           .help = "all, or one of loft, best-carry, best-total, window (lofts within 2 yd of the best), launch, spin, carry and total",
           .group = "What is shown", .kind = Kind::word, .fallback = "all", .words = kChartWords},
    Option{.name = "csv", .help = "a row a cell, comma-separated, for a spreadsheet", .group = "What is shown", .kind = Kind::flag,
           .excludes = "json"},
};

inline constexpr std::array kShots{
    Option{.name = "paste", .help = "only the lines for a pupil's file, ready to paste", .group = "What is shown", .kind = Kind::flag},
};

inline constexpr std::array kLearn{
    Option{.name = "learn", .value = "FILE",
           .help = "keep the pairs of --map with all other words in this file: from then on --columns FILE reads such lists without them",
           .group = "Shot list", .kind = Kind::file, .needs = "map"},
};

inline constexpr std::array kRemove{
    Option{.name = "session", .value = "NUMBER", .help = "number of the session, as 'book list' shows it", .group = "Which",
           .kind = Kind::integer, .range = {1, 1000000000}, .required = true},
};

inline constexpr std::array kTuneList{
    Option{.name = "shots", .value = "FILE",
           .help = "a shot list (CSV), hit in the conditions of the pupil's file with the ball and driver named there", .group = "Shot list",
           .kind = Kind::file, .required = true},
};

inline constexpr std::array kTune{
    Option{.name = "folds", .value = "NUMBER",
           .help = "parts the shots are split into; each is left out once and predicted from the rest. As many as shots or more: each shot "
                   "alone", .group = "Proof", .kind = Kind::integer, .range = {2, 1000000}, .fallback = "10"},
    Option{.name = "into", .value = "FILE", .help = "write a copy of the pupil's file with the tuned block in it, if tuning helps",
           .group = "Result", .kind = Kind::file},
    Option{.name = "overwrite", .help = "write over a file that is there; the pupil's own may be it", .group = "Result", .kind = Kind::flag,
           .needs = "into"},
};

inline constexpr std::array kAdviceKept{
    Option{.name = "advice", .value = "FILE",
           .help = "an answer of 'advise --json' on this session's swing: what it promised is kept, and 'lessons' reckons what was reached of it",
           .group = "Session", .kind = Kind::file},
};

inline constexpr std::array kLessons{
    Option{.name = "into", .value = "FILE", .help = "keep what the lessons do in this file, which 'advise --academy' takes", .group = "Result",
           .kind = Kind::file},
    Option{.name = "overwrite", .help = "write over a file that is there", .group = "Result", .kind = Kind::flag, .needs = "into"},
};

using Options = std::span<const Option>;
inline constexpr std::array<Options, 2> kFlyOptions{kLaunch, kCourse};
inline constexpr std::array<Options, 3> kStrikeOptions{kDelivery, kVersus, kCourse};
inline constexpr std::array<Options, 1> kArcOptions{kArc};
inline constexpr std::array<Options, 4> kDemoOptions{kAdvise, kAcademy, kLadder, kPage};
inline constexpr std::array<Options, 5> kAdviseOptions{kFromBook, kAdvise, kAcademy, kLadder, kPage};

inline constexpr std::array<Options, 3> kClinicOptions{kDraws, kAcademy, kClinic};
inline constexpr std::array<Options, 4> kRackOptions{kRack, kAdviceDraws, kAdviceAcademy, kPage};

inline constexpr std::array<Options, 4> kChartOptions{kChart, kPage, kPlayer, kCourse};
inline constexpr std::array<Options, 5> kShotsOptions{kShots, kShotList, kLearn, kPlayer, kCourse};
inline constexpr std::array<Options, 6> kCompareOptions{kCompare, kPage, kShotList, kPlayer, kClubLoft, kCourse};
inline constexpr std::array<Options, 5> kHeadsOptions{kHeads, kPage, kShotList, kPlayer, kCourse};
inline constexpr std::array<Options, 5> kBookAddOptions{kSession, kAdviceKept, kSessionList, kSessionDelivery, kCourse};
inline constexpr std::array<Options, 3> kBookEditOptions{kCorrection, kCorrectedDelivery, kCorrectedCourse};
inline constexpr std::array<Options, 2> kLessonsOptions{kLessons, kPage};
inline constexpr std::array<Options, 1> kBookHistoryOptions{kPage};
inline constexpr std::array<Options, 3> kTuneOptions{kTuneList, kShotList, kTune};
inline constexpr std::array<Options, 1> kBookRemoveOptions{kRemove};

// clang-format on

}  // namespace loftwright::cli
