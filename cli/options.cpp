#include "options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "commands.hpp"
#include "loftwright/core/nearest.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/shots/cells.hpp"

namespace loftwright::cli {

namespace {

constexpr std::array kUnitWords{Word{"yards"}, Word{"metres"}};
constexpr std::array kHandWords{Word{"right"}, Word{"left"}};
constexpr std::array kBearingWords{Word{"ahead", "0deg"}, Word{"right", "90deg"}, Word{"behind", "180deg"},
                                   Word{"left", "-90deg"}};
constexpr std::array kProfileWords{Word{"logarithmic"}, Word{"power"}, Word{"uniform"}};

constexpr std::array kCommon{
    Option{.name = "units", .value = "SYSTEM",
           .help = "what the screen shows: yards (yd, ft, mph, in) or metres (m, m/s, cm)", .group = "Common",
           .kind = Kind::word, .fallback = "yards", .words = kUnitWords},
    Option{.name = "json", .help = "the same numbers for programs, as JSON", .group = "Common", .kind = Kind::flag},
    Option{.name = "quiet", .help = "no warnings and no progress; the answer stays whole", .group = "Common",
           .kind = Kind::flag},
    Option{.name = "data", .value = "FOLDER",
           .help = "your own balls, heads, turfs and air models, looked in before the built-in ones; without it the "
                   "environment variable LOFTWRIGHT_DATA says where",
           .group = "Common", .kind = Kind::folder},
    Option{.name = "seed", .value = "NUMBER",
           .help = "where random draws start, in commands that draw: the same seed gives the same answer",
           .group = "Common", .kind = Kind::seed, .low = "0", .high = "18446744073709551615", .fallback = "1"},
    Option{.name = "threads", .value = "NUMBER", .help = "cores to use, in commands that can share their work; 0: all",
           .group = "Common", .kind = Kind::integer, .low = "0", .high = "1024", .fallback = "0"},
    Option{.name = "help", .help = "this text", .group = "Common", .kind = Kind::flag},
    Option{.name = "version", .help = "the program's version", .group = "Common", .kind = Kind::flag},
};

constexpr std::array kLaunch{
    Option{.name = "ball-speed", .value = "SPEED", .help = "speed of the ball just after impact", .group = "Launch",
           .dimension = Dimension::speed, .unit = "mph", .low = "1m/s", .high = "110m/s", .required = true},
    Option{.name = "launch", .value = "ANGLE", .help = "how steeply it leaves, above the ground", .group = "Launch",
           .dimension = Dimension::angle, .unit = "deg", .low = "-20deg", .high = "80deg", .required = true},
    Option{.name = "spin", .value = "SPIN", .help = "all of its spin", .group = "Launch", .dimension = Dimension::spin,
           .unit = "rpm", .low = "0rpm", .high = "15000rpm", .required = true},
    Option{.name = "azimuth", .value = "ANGLE", .help = "how far right of the target it starts (left: negative)",
           .group = "Launch", .dimension = Dimension::angle, .unit = "deg", .low = "-60deg", .high = "60deg",
           .fallback = "0deg"},
    Option{.name = "tilt", .value = "ANGLE", .help = "tilt of the spin axis: positive curves the ball right",
           .group = "Launch", .dimension = Dimension::angle, .unit = "deg", .low = "-180deg", .high = "180deg",
           .fallback = "0deg"},
};

constexpr std::array kDelivery{
    Option{.name = "club-speed", .value = "SPEED", .help = "speed of the clubhead just before impact", .group = "Delivery",
           .dimension = Dimension::speed, .unit = "mph", .low = "9m/s", .high = "72m/s", .required = true},
    Option{.name = "attack", .value = "ANGLE", .help = "attack angle: up positive, down negative", .group = "Delivery",
           .dimension = Dimension::angle, .unit = "deg", .low = "-20deg", .high = "20deg", .required = true},
    Option{.name = "dynamic-loft", .value = "ANGLE", .help = "loft of the face as it meets the ball", .group = "Delivery",
           .dimension = Dimension::angle, .unit = "deg", .low = "-5deg", .high = "60deg", .required = true},
    Option{.name = "path", .value = "ANGLE", .help = "club path: right of the target positive", .group = "Delivery",
           .dimension = Dimension::angle, .unit = "deg", .low = "-30deg", .high = "30deg", .fallback = "0deg"},
    Option{.name = "face", .value = "ANGLE", .help = "face angle: right of the target positive", .group = "Delivery",
           .dimension = Dimension::angle, .unit = "deg", .low = "-30deg", .high = "30deg", .fallback = "0deg"},
    Option{.name = "toe", .value = "LENGTH", .help = "strike point towards the toe (towards the heel: negative)",
           .group = "Delivery", .dimension = Dimension::length, .unit = "mm", .low = "-50mm", .high = "50mm",
           .fallback = "0mm"},
    Option{.name = "high", .value = "LENGTH", .help = "strike point up the face (low: negative)", .group = "Delivery",
           .dimension = Dimension::length, .unit = "mm", .low = "-30mm", .high = "30mm", .fallback = "0mm"},
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = "Delivery", .kind = Kind::word,
           .fallback = "right", .words = kHandWords},
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json",
           .group = "Delivery", .kind = Kind::head, .fallback = "modern-driver"},
    Option{.name = "club-loft", .value = "ANGLE",
           .help = "loft on the club itself; known of two strikes, it tells what the club did from what the hands did", .group = "Delivery",
           .dimension = Dimension::angle, .unit = "deg", .low = "4deg", .high = "30deg"},
};

constexpr std::array kVersus{
    Option{.name = "versus", .value = "CHANGES",
           .help = "a second strike that differs by these options, as in \"attack=2deg dynamic-loft=13deg turf=firm\": both are shown, and who "
                   "did what: how many of the yards came of speed, swing, club and hands", .group = "Second strike", .kind = Kind::text},
    Option{.name = "follow", .value = "ANGLE",
           .help = "how much the delivered loft rises for each degree that the attack rises: that loft is the swing's, the rest the hands'",
           .group = "Second strike", .dimension = Dimension::angle, .unit = "deg", .low = "0deg", .high = "1.3deg", .fallback = "0.85deg",
           .needs = "versus"},
};

constexpr std::array kCourse{
    Option{.name = "ball", .value = "BALL", .help = "id of the ball, or a file that ends in .json",
           .group = kCourseGroup, .kind = Kind::ball, .fallback = "reference"},
    Option{.name = "turf", .value = "TURF", .help = "firm, medium or soft, or a file that ends in .json",
           .group = kCourseGroup, .kind = Kind::turf, .fallback = "medium"},
    Option{.name = "altitude", .value = "HEIGHT", .help = "height above the sea", .group = kCourseGroup,
           .unit = "m", .low = "-500m", .high = "5500m", .fallback = "0m"},
    Option{.name = "pressure", .value = "PRESSURE",
           .help = "air pressure at the course itself (not reduced to sea level), in place of the altitude",
           .group = kCourseGroup, .dimension = Dimension::pressure, .unit = "hPa", .low = "500hPa",
           .high = "1100hPa", .excludes = "altitude"},
    Option{.name = "temperature", .value = "TEMPERATURE", .help = "air temperature", .group = kCourseGroup,
           .dimension = Dimension::temperature, .unit = "C", .low = "-40C", .high = "55C", .fallback = "20C"},
    Option{.name = "humidity", .value = "PERCENT", .help = "relative humidity", .group = kCourseGroup,
           .dimension = Dimension::ratio, .unit = "%", .low = "0%", .high = "100%", .fallback = "50%"},
    Option{.name = "wind", .value = "SPEED", .help = "wind speed", .group = kCourseGroup,
           .dimension = Dimension::speed, .unit = "mph", .low = "0m/s", .high = "30m/s", .fallback = "0mph",
           .needs = "wind-from"},
    Option{.name = "wind-from", .value = "BEARING",
           .help = "where the wind blows from: ahead, behind, left or right, or a bearing from the target line (0deg ahead, "
                   "90deg right, 180deg behind)",
           .group = kCourseGroup, .dimension = Dimension::angle, .unit = "deg", .low = "-360deg",
           .high = "360deg", .fallback = "0deg", .words = kBearingWords, .needs = "wind"},
    Option{.name = "wind-height", .value = "HEIGHT", .help = "height at which that wind was measured",
           .group = kCourseGroup, .unit = "m", .low = "1m", .high = "100m", .fallback = "10m", .needs = "wind"},
    Option{.name = "wind-profile", .value = "LAW",
           .help = "how the wind dies down towards the ground: logarithmic, power, or uniform (not at all)",
           .group = kCourseGroup, .kind = Kind::word, .fallback = "logarithmic", .words = kProfileWords,
           .needs = "wind"},
};

constexpr std::array kArc{
    Option{.name = "low-point", .value = "LENGTH",
           .help = "lowest point of the clubhead's arc: ahead of the ball positive, behind it negative", .group = "Arc",
           .unit = "in", .low = "-0.6m", .high = "0.6m"},
    Option{.name = "plane", .value = "ANGLE", .help = "how steep the swing plane stands near the ball, from the ground",
           .group = "Arc", .dimension = Dimension::angle, .unit = "deg", .low = "20deg", .high = "80deg"},
    Option{.name = "radius", .value = "LENGTH", .help = "radius of the circle the clubhead runs on near the ball",
           .group = "Arc", .unit = "m", .low = "0.8m", .high = "2.5m"},
    Option{.name = "attack", .value = "ANGLE", .help = "attack angle: up positive, down negative", .group = "Arc",
           .dimension = Dimension::angle, .unit = "deg", .low = "-20deg", .high = "20deg"},
    Option{.name = "path", .value = "ANGLE", .help = "club path: right of the target positive", .group = "Arc",
           .dimension = Dimension::angle, .unit = "deg", .low = "-30deg", .high = "30deg"},
    Option{.name = "swing-direction", .value = "ANGLE",
           .help = "where the base of the swing plane points: right of the target positive", .group = "Arc",
           .dimension = Dimension::angle, .unit = "deg", .low = "-30deg", .high = "30deg", .fallback = "0deg"},
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = "Arc", .kind = Kind::word,
           .fallback = "right", .words = kHandWords},
};

constexpr std::array kPage{
    Option{.name = "html", .value = "FILE",
           .help = "write a page beside the answer, for the pupil to take home: one file that opens in any browser and prints on two sheets; "
                   "its name ends in .html",
           .group = "What is shown", .kind = Kind::file},
};

constexpr std::array kAdvise{
    Option{.name = "draws", .value = "NUMBER",
           .help = "how many draws of everything uncertain, each with a drive of its own, the gains are taken over (in whole 256s); 0: no probabilities, an answer at once", .group = "How sure",
           .kind = Kind::integer, .low = "0", .high = "1000000", .fallback = "32768"},
    Option{.name = "explain", .help = "only why, in plain words for the pupil, the verdict and the cautions", .group = "What is shown",
           .kind = Kind::flag},
};

constexpr std::array kOddWords{Word{"keep"}, Word{"leave-out"}};
constexpr std::array kDecimalWords{Word{"point"}, Word{"comma"}};

constexpr std::array kSession{
    Option{.name = "date", .value = "DAY", .help = "the day of the session, as 2026-03-14; without it today", .group = "Session",
           .kind = Kind::day},
    Option{.name = "notes", .value = "TEXT", .help = "what was worked on, in your own words", .group = "Session",
           .kind = Kind::text},
    Option{.name = "name", .value = "NAME",
           .help = "the pupil's name, written into a new book (without it the file's own name) and compared with that of an old one",
           .group = "Session", .kind = Kind::text},
    Option{.name = "handed", .value = "HAND",
           .help = "right or left, written into a new book (without it right) and compared with that of an old one",
           .group = "Session", .kind = Kind::word, .words = kHandWords},
    Option{.name = "loft", .value = "ANGLE", .help = "loft of the driver as it is marked", .group = "Session",
           .dimension = Dimension::angle, .unit = "deg", .low = "4deg", .high = "30deg"},
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json", .group = "Session",
           .kind = Kind::head, .fallback = "modern-driver"},
    Option{.name = "shots", .value = "FILE", .help = "a shot list (CSV): its means are the delivery, and its spreads are kept beside them",
           .group = "Shot list", .kind = Kind::file},
};

// How a shot list is read.
constexpr std::array kShotList{
    Option{.name = "map", .value = "KEY=HEAD",
           .help = "what a column holds, before all words: attack=\"Angle (deg)\"; ball_speed_mps=\"Ball Speed\" says the unit "
                   "too, and a minus before the key turns the signs round",
           .group = "Shot list", .kind = Kind::text, .repeats = true},
    Option{.name = "columns", .value = "FILE", .help = "your own words for the columns of shot lists, in place of the built-in ones",
           .group = "Shot list", .kind = Kind::file},
    Option{.name = "club", .value = "NAME", .help = "only the shots of this club, as its column names it", .group = "Shot list",
           .kind = Kind::text},
    Option{.name = "decimal", .value = "SIGN",
           .help = "how the list writes decimals, point or comma; without it found from its cells", .group = "Shot list",
           .kind = Kind::word, .words = kDecimalWords},
    Option{.name = "odd", .value = "WHAT", .help = "shots that stand far out from the others: keep or leave-out", .group = "Shot list",
           .kind = Kind::word, .fallback = "keep", .words = kOddWords},
};

constexpr auto kSessionList = [] {
  auto out = kShotList;
  for (Option& option : out) option.needs = "shots";
  return out;
}();

// The delivery of a session that has no shot list.
constexpr auto kSessionDelivery = [] {
  std::array<Option, 7> out;
  std::copy_n(kDelivery.begin(), out.size(), out.begin());
  for (Option& option : out) option.excludes = "shots";
  return out;
}();

// Who hit the shots of a list and with what: what the model needs to work out what was not measured.
constexpr std::array kPlayer{
    Option{.name = "handed", .value = "HAND", .help = "right or left", .group = kPlayerGroup, .kind = Kind::word,
           .fallback = "right", .words = kHandWords},
    Option{.name = "head", .value = "HEAD", .help = "id of the driver head, or a file that ends in .json",
           .group = kPlayerGroup, .kind = Kind::head, .fallback = "modern-driver"},
};

constexpr std::array kGoalWords{Word{"carry"}, Word{"total"}};

constexpr std::array kCompare{
    Option{.name = "goal", .value = "WHAT", .help = "what was to grow: carry or total; without it the goal of --pupil, else carry",
           .group = "Question", .kind = Kind::word, .words = kGoalWords},
    Option{.name = "worthwhile", .value = "LENGTH",
           .help = "the smallest change that matters; without it that of --pupil, else 3 yd", .group = "Question", .unit = "yd",
           .low = "0m", .high = "50m"},
    Option{.name = "confidence", .value = "PERCENT", .help = "of every interval", .group = "Question",
           .dimension = Dimension::ratio, .unit = "%", .low = "50%", .high = "99.99%", .fallback = "95%"},
    Option{.name = "pupil", .value = "PUPIL",
           .help = "the pupil's file from before: hand, club, ball and weather, and the gains 'advise' predicts from it, of which is "
                   "said what was reached", .group = "Question", .kind = Kind::file},
    Option{.name = "predicted", .value = "LENGTH", .help = "a gain that was predicted, of which is said what was reached",
           .group = "Question", .unit = "yd", .low = "0.1m", .high = "200m"},
    Option{.name = "changed", .value = "CHANGES",
           .help = "what else was different after, as in \"club-loft=12deg temperature=9C turf=firm head=old.json\": the loft on the club has "
                   "a share of its own, the rest that of the conditions",
           .group = "Question", .kind = Kind::text},
};

constexpr std::array kClubLoft{
    Option{.name = "club-loft", .value = "ANGLE",
           .help = "loft on the club, before and after unless --changed says otherwise; without it that of --pupil, before: it tells what the "
                   "club did from what the hands did",
           .group = kPlayerGroup, .dimension = Dimension::angle, .unit = "deg", .low = "4deg", .high = "30deg"},
};

constexpr std::array kChartWords{Word{"all"}, Word{"loft"}, Word{"best-carry"}, Word{"best-total"}, Word{"window"}, Word{"launch"}, Word{"spin"}, Word{"carry"}, Word{"total"}};

constexpr std::array kChart{
    Option{.name = "speed-low", .value = "SPEED", .help = "slowest club speed of the table", .group = "Table",
           .dimension = Dimension::speed, .unit = "mph", .low = "9m/s", .high = "72m/s", .fallback = "60mph"},
    Option{.name = "speed-high", .value = "SPEED", .help = "fastest", .group = "Table", .dimension = Dimension::speed,
           .unit = "mph", .low = "9m/s", .high = "72m/s", .fallback = "120mph"},
    Option{.name = "speed-step", .value = "SPEED", .help = "from one to the next", .group = "Table",
           .dimension = Dimension::speed, .unit = "mph", .low = "0.1m/s", .high = "72m/s", .fallback = "5mph"},
    Option{.name = "attack-low", .value = "ANGLE", .help = "steepest downward attack of the table", .group = "Table",
           .dimension = Dimension::angle, .unit = "deg", .low = "-20deg", .high = "20deg", .fallback = "-6deg"},
    Option{.name = "attack-high", .value = "ANGLE", .help = "steepest upward attack", .group = "Table",
           .dimension = Dimension::angle, .unit = "deg", .low = "-20deg", .high = "20deg", .fallback = "6deg"},
    Option{.name = "attack-step", .value = "ANGLE", .help = "from one to the next", .group = "Table",
           .dimension = Dimension::angle, .unit = "deg", .low = "0.05deg", .high = "40deg", .fallback = "1deg"},
    Option{.name = "loft-low", .value = "ANGLE", .help = "least loft that may be delivered", .group = "Table",
           .dimension = Dimension::angle, .unit = "deg", .low = "4deg", .high = "30deg", .fallback = "4deg"},
    Option{.name = "loft-high", .value = "ANGLE", .help = "most loft that may be delivered", .group = "Table",
           .dimension = Dimension::angle, .unit = "deg", .low = "4deg", .high = "30deg", .fallback = "30deg"},
    Option{.name = "goal", .value = "WHAT",
           .help = "what the loft is best for: carry or total; without it the goal of --pupil, else carry", .group = "Question",
           .kind = Kind::word, .words = kGoalWords},
    Option{.name = "pupil", .value = "PUPIL",
           .help = "a pupil's file: its goal, limits, head, ball and weather hold for the whole table", .group = "Question",
           .kind = Kind::file},
    Option{.name = "show", .value = "WHAT", .help = "all, or one of loft, best-carry, best-total, window (lofts within 2 yd of the best), launch, spin, carry and total", .group = "What is shown",
           .kind = Kind::word, .fallback = "all", .words = kChartWords},
    Option{.name = "csv", .help = "a row a cell, comma-separated, for a spreadsheet", .group = "What is shown", .kind = Kind::flag,
           .excludes = "json"},
};

constexpr std::array kShots{
    Option{.name = "paste", .help = "only the lines for a pupil's file, ready to paste", .group = "What is shown", .kind = Kind::flag},
};

constexpr std::array kLearn{
    Option{.name = "learn", .value = "FILE",
           .help = "keep the pairs of --map with all other words in this file: from then on --columns FILE reads such lists without them",
           .group = "Shot list", .kind = Kind::file, .needs = "map"},
};

constexpr std::array kRemove{
    Option{.name = "session", .value = "NUMBER", .help = "number of the session, as 'book list' shows it", .group = "Which",
           .kind = Kind::integer, .low = "1", .high = "1000000000", .required = true},
};

constexpr std::array kTuneList{
    Option{.name = "shots", .value = "FILE",
           .help = "a shot list (CSV), hit in the conditions of the pupil's file with the ball and driver named there", .group = "Shot list",
           .kind = Kind::file, .required = true},
};

constexpr std::array kTune{
    Option{.name = "folds", .value = "NUMBER",
           .help = "parts the shots are split into; each is left out once and predicted from the rest. As many as shots or more: each shot alone",
           .group = "Proof", .kind = Kind::integer, .low = "2", .high = "1000000", .fallback = "10"},
    Option{.name = "into", .value = "FILE", .help = "write a copy of the pupil's file with the tuned block in it, if tuning helps",
           .group = "Result", .kind = Kind::file},
    Option{.name = "overwrite", .help = "write over a file that is there; the pupil's own may be it", .group = "Result",
           .kind = Kind::flag, .needs = "into"},
};

using Options = std::span<const Option>;
constexpr std::array<Options, 2> kFlyOptions{kLaunch, kCourse};
constexpr std::array<Options, 3> kStrikeOptions{kDelivery, kVersus, kCourse};
constexpr std::array<Options, 1> kArcOptions{kArc};
constexpr std::array<Options, 2> kAdviseOptions{kAdvise, kPage};

constexpr std::array<Options, 4> kChartOptions{kChart, kPage, kPlayer, kCourse};
constexpr std::array<Options, 5> kShotsOptions{kShots, kShotList, kLearn, kPlayer, kCourse};
constexpr std::array<Options, 6> kCompareOptions{kCompare, kPage, kShotList, kPlayer, kClubLoft, kCourse};
constexpr std::array<Options, 4> kBookAddOptions{kSession, kSessionList, kSessionDelivery, kCourse};
constexpr std::array<Options, 1> kBookHistoryOptions{kPage};
constexpr std::array<Options, 3> kTuneOptions{kTuneList, kShotList, kTune};
constexpr std::array<Options, 1> kBookRemoveOptions{kRemove};

constexpr std::array kDemoExamples{Example{"demo", "the main job on an invented pupil"},
                                   Example{"demo --units metres", "the same in metres"}};
constexpr std::array kFlyExamples{
    Example{"fly --ball-speed 118mph --launch 11deg --spin 2700rpm", "a senior's drive in still air"},
    Example{"fly --ball-speed 118 --launch 11 --spin 2700 --wind 9 --wind-from 0", "into a 9 mph wind"}};
constexpr std::array kStrikeExamples{
    Example{"strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg", "hitting down with little loft"},
    Example{"strike --club-speed 82 --attack +3 --dynamic-loft 15 --toe 10mm", "hitting up, off the toe"},
    Example{"strike --club-speed 98 --attack -8 --dynamic-loft 7 --club-loft 9 --versus \"club-speed=103 attack=3 dynamic-loft=13 club-loft=10.5\"",
            "six lessons and a new driver: who did what"}};
constexpr std::array kArcExamples{
    Example{"arc --low-point -4.7in --plane 50deg --radius 1.6m", "what a low point behind the ball delivers"},
    Example{"arc --attack +3deg --plane 50deg --radius 1.6m", "the low point an attack angle needs"},
    Example{"arc --attack -8deg --path 4deg --low-point 9.8in", "plane and radius from what was measured"}};
constexpr std::array kAdviseExamples{Example{"advise data/pupils/demo.json", "a pupil's file"},
                                     Example{"advise data/pupils/demo.json --explain", "why, in words a pupil can repeat at home"},
                                     Example{"advise data/pupils/demo.json --html demo.html", "a page for the pupil to take home"},
                                     Example{"advise data/pupils/demo.json --json", "the same numbers for a program"}};
constexpr std::array kChartExamples{
    Example{"chart", "the best loft for 60 to 120 mph and 6 deg down to 6 deg up"},
    Example{"chart --goal total --show loft --turf firm --speed-low 65mph --speed-high 100mph", "for the longest total on firm turf"},
    Example{"chart --pupil data/pupils/clinic.json --csv", "under a pupil's limits, for a spreadsheet"},
    Example{"chart --html lofts.html", "a page to hang up"}};
constexpr std::array kShotsExamples{
    Example{"shots data/shots/lesson.csv", "what a device's export says, and what it does not"},
    Example{"shots data/shots/lesson.csv --odd leave-out --paste", "the lines for a pupil's file"}};
constexpr std::array kCompareExamples{
    Example{"compare data/academy/tamsin-before.csv data/academy/tamsin-after.csv", "did the lesson work?"},
    Example{"compare data/academy/ivo-before.csv data/academy/ivo-after.csv --pupil data/academy/ivo.json",
            "and what of the gain that 'advise' predicted was reached"},
    Example{"compare data/academy/tamsin-before.csv data/academy/tamsin-after.csv --html lesson.html", "the same as a page"}};
constexpr std::array kTuneExamples{
    Example{"tune data/pupils/demo.json --shots data/shots/tuning.csv", "what a pupil's shots say of head and ball"},
    Example{"tune data/pupils/demo.json --shots data/shots/tuning.csv --into marlow.json", "a pupil's file that advise takes"}};
constexpr std::array kCheckExamples{Example{"check data/pupils/demo.json", "look a pupil's file over"}};

constexpr std::array kBookAddExamples{
    Example{"book add data/books/demo.json --date 2026-04-11 --loft 12deg --club-speed 83mph --attack 1deg --dynamic-loft 14.5deg",
            "a session whose mean delivery was measured"},
    Example{"book add data/books/demo.json --date 2026-04-18 --shots data/shots/lesson.csv --notes \"ball an inch forward\"",
            "a session as a device exported it"}};
constexpr std::array kBookListExamples{Example{"book list data/books/demo.json", "every session"}};
constexpr std::array kBookHistoryExamples{Example{"book history data/books/demo.json", "is carry rising?"},
                                          Example{"book history data/books/demo.json --html progress.html", "the same as a page"}};
constexpr std::array kBookRemoveExamples{Example{"book remove data/books/demo.json --session 2", "take a session out"}};
constexpr std::array kBookUndoExamples{Example{"book undo data/books/demo.json", "take back the last change"}};
constexpr std::array kBookExportExamples{Example{"book export data/books/demo.json", "a table for a spreadsheet"}};
constexpr std::array kPupil{Positional{"PUPIL", "the pupil's file (JSON); - reads it from standard input"}};
constexpr std::array kPupilFile{Positional{"PUPIL", "the pupil's file (JSON)"}};
constexpr std::array kBook{Positional{"BOOK", "the pupil's book (JSON), a file in a folder of your choice"}};
constexpr std::array kList{Positional{"LIST", "a shot list (CSV); - reads it from standard input"}};
constexpr std::array kTwoLists{Positional{"BEFORE", "the shot list (CSV) from before; - reads it from standard input"},
                               Positional{"AFTER", "the shot list from after; or this one may be -"}};
constexpr std::array kFile{Positional{"FILE", "a pupil's file, a book, a model's (ball, head, turf, air resistance), words for columns, or a shot list (CSV)"}};

constexpr std::string_view kDeliverySigns =
    "Attack is positive upwards. Path and face are positive to the right of the target, for either hand; so is every side. "
    "Toe is positive towards the toe, high up the face. A spin axis tilted positive curves the ball right.";

constexpr std::array kCommands{
    Command{.name = "demo", .summary = "the main job at once, on an invented pupil",
            .description = "Will a change of swing, or a change of driver loft, buy more yards? Answers it for an invented pupil "
                           "who is inside the program, exactly as 'advise' would for yours.",
            .signs = "", .positionals = {}, .options = kAdviseOptions, .examples = kDemoExamples, .run = cmd_demo},
    Command{.name = "fly", .summary = "what one launch does: ball speed, launch, spin -> carry, total",
            .description = "Ball speed, launch angle and spin go in; carry, run, total, apex and landing come out.",
            .signs = "Azimuth and side are positive to the right of the target. A spin axis tilted positive curves the ball right.",
            .positionals = {}, .options = kFlyOptions, .examples = kFlyExamples, .run = cmd_fly},
    Command{.name = "strike", .summary = "what one delivery does: club, attack, loft -> launch, carry, total",
            .description = "How the clubhead meets the ball goes in; the launch, the flight and the run come out.",
            .signs = kDeliverySigns, .positionals = {}, .options = kStrikeOptions, .examples = kStrikeExamples,
            .run = cmd_strike},
    Command{.name = "advise", .summary = "technique or loft: where a pupil's yards are",
            .description = "Will a change of swing, or a change of driver loft, buy this pupil more yards? Solves four cases from the "
                           "same delivery (as is, loft only, technique only, both) within the lofts on offer, the reach of the "
                           "swing and every limit in the file; then says in one sentence what to change, how sure that is, what "
                           "each step is worth, how little swing change each loft needs, what holds the answer, and how to set up for it.",
            .signs = kDeliverySigns,
            .positionals = kPupil,
            .options = kAdviseOptions,
            .examples = kAdviseExamples, .run = cmd_advise},
    Command{.name = "arc", .summary = "set-up geometry: low point, plane, radius <-> attack, path",
            .description = "Near the ball the clubhead runs on a circle in a tilted plane. Any three of its numbers give the others: "
                           "--low-point --plane --radius give attack and path; --attack --plane --radius give the low point; "
                           "--attack --path --low-point give plane and radius.",
            .signs = "A low point ahead of the ball is positive. Attack is positive upwards. Path and swing direction are positive to "
                     "the right of the target, for either hand.",
            .positionals = {}, .options = kArcOptions, .examples = kArcExamples, .run = cmd_arc},
    Command{.name = "chart", .summary = "a table for the wall: club speed and attack -> loft, launch, spin, carry",
            .description = "For each club speed and attack the loft to deliver for the longest carry or total, and the launch, spin, "
                           "carry and total it gives, struck at the face centre with path and face square. A player who delivers the "
                           "loft that stands on the club reads it as that.",
            .signs = "Attack is positive upwards.", .positionals = {}, .options = kChartOptions, .examples = kChartExamples,
            .run = cmd_chart},
    Command{.name = "shots", .summary = "a shot list: means, scatter, what goes together, what was not measured",
            .description = "Reads a device's export or a list typed by hand: which column is what, which rows cannot be shots and why, which "
                           "shots are odd; the mean of every reading with its error, the scatter, what goes together; where both sides of the "
                           "impact were measured, whether they agree; what was not measured, computed by the model; and the lines for a pupil's "
                           "file.",
            .signs = kDeliverySigns, .positionals = kList, .options = kShotsOptions, .examples = kShotsExamples, .run = cmd_shots},
    Command{.name = "compare", .summary = "before and after: did it change, and which change made which yards",
            .description = "Two shot lists of one pupil: the difference of every reading with its interval; whether carry (or total) really "
                           "changed, and if that cannot be told yet, how many more shots would tell; which change made which part of it, by the "
                           "model; and what was reached of the gain that was predicted. Exit 1 when there is no real difference.",
            .signs = kDeliverySigns, .positionals = kTwoLists, .options = kCompareOptions, .examples = kCompareExamples,
            .run = cmd_compare},
    Command{.name = "tune", .summary = "head and ball as a pupil's own shots show them",
            .description = "Fits restitution, tangential restitution, drag and lift to measured shots, with the doubt about any model as the "
                           "start: what they are, how sure, what the shots cannot tell; whether shots that were left out are predicted "
                           "better for it (exit 0) or not (exit 1); and the block for the pupil's file that 'advise' then uses.",
            .signs = "", .positionals = kPupilFile, .options = kTuneOptions, .examples = kTuneExamples,
            .run = cmd_tune},
    Command{.name = "book add", .summary = "keep a session in a pupil's book",
            .description = "Adds a session to a pupil's book, and begins the book when there is none: the day, notes, the club, the "
                           "conditions, and the delivery, given as such or as a shot list. The drive of that delivery is computed under "
                           "the same conditions for every session, so that sessions can be compared.",
            .signs = kDeliverySigns, .positionals = kBook, .options = kBookAddOptions, .examples = kBookAddExamples,
            .run = cmd_book_add},
    Command{.name = "book list", .summary = "the sessions in a book", .description = "Lists the sessions of a book, oldest first.",
            .signs = "", .positionals = kBook, .options = {}, .examples = kBookListExamples, .run = cmd_book_list},
    Command{.name = "book history", .summary = "is carry rising, and how sure is that; the best session so far",
            .description = "Carry under the same conditions, session by session; the straight line through them (least squares) with "
                           "its 95 % interval; and the best session so far.",
            .signs = "", .positionals = kBook, .options = kBookHistoryOptions, .examples = kBookHistoryExamples, .run = cmd_book_history},
    Command{.name = "book remove", .summary = "take a session out of a book",
            .description = "Takes one session out. 'book undo' brings it back.", .signs = "", .positionals = kBook,
            .options = kBookRemoveOptions, .examples = kBookRemoveExamples, .run = cmd_book_remove},
    Command{.name = "book undo", .summary = "take back the last change of a book",
            .description = "Brings back the version before the last change. Undoing twice brings back what was undone.",
            .signs = "", .positionals = kBook, .options = {}, .examples = kBookUndoExamples, .run = cmd_book_undo},
    Command{.name = "book export", .summary = "a book as a table (CSV)",
            .description = "Writes a row a session to standard output, comma-separated with a row of heads (RFC 4180); each head "
                           "names its unit: those of the book's file, or with --units yards yards, miles an hour, feet and degrees F.",
            .signs = "", .positionals = kBook, .options = {}, .examples = kBookExportExamples, .run = cmd_book_export},
    Command{.name = "check", .summary = "mistakes in a file, each with its place",
            .description = "Reads any of the program's own files and lists what is wrong or doubtful, each with its place and what is "
                           "allowed. Exit 0 when the file can be used (warnings allowed), 3 when it cannot.",
            .signs = "", .positionals = kFile,
            .options = {}, .examples = kCheckExamples, .run = cmd_check},
};

std::string option_error(const Option& option, std::string_view what) {
  return fmt::format("--{}: {}", option.name, what);
}

std::optional<std::string_view> meaning_of(const Option& option, std::string_view text) {
  for (const Word& w : option.words) {
    if (w.word == text) return w.meaning;
  }
  return std::nullopt;
}

std::string list_of(std::span<const Word> words) {
  std::string out;
  for (const Word& w : words) out += fmt::format("{}{}", out.empty() ? "" : ", ", w.word);
  return out;
}

double quantity_of(const Option& option, std::string_view text);

bool is_allowed(const Option& option, double value) {
  return option.low.empty() || (value >= quantity_of(option, option.low) && value <= quantity_of(option, option.high));
}

// What a cell of a shot list would mean by it, with either sign for the decimals: "3 D", "82,5", "2 650". Throws UsageError when
// both are allowed and differ. Empty: it is no such number.
std::optional<double> as_in_lists(const Option& option, std::string_view text) {
  std::string key(option.name);
  std::replace(key.begin(), key.end(), '-', '_');
  static const ColumnMap words = built_in_columns();
  const auto reading = find_reading(key);
  const ReadingWords none, &own = reading ? words.readings[index_of(*reading)] : none;
  const auto read = [&](Decimal decimal) -> std::optional<double> {
    const Cell cell = read_cell(text, own, option.dimension, decimal);
    if (!cell.value) return std::nullopt;
    return (cell.unit ? *cell.unit : unit(option.unit)).to_si(*cell.value);
  };
  const auto point = read(Decimal::point), comma = read(Decimal::comma);
  const bool points = point && is_allowed(option, *point), commas = comma && is_allowed(option, *comma);
  if (points && commas && *point != *comma) {
    const auto shown = [&](double si) { return fmt::format("{:.10g} {}", unit(option.unit).from_si(si), option.unit); };
    throw UsageError(option_error(option, fmt::format("'{}' may be {} with decimal point or {} with decimal comma; write it without the sign that "
                                                      "groups thousands", text, shown(*point), shown(*comma))));
  }
  return points ? point : commas ? comma : point ? point : comma;
}

double quantity_of(const Option& option, std::string_view text) {
  if (const auto meaning = meaning_of(option, text)) text = *meaning;
  const bool ambiguous = decimal_sign(text) == DecimalSign::either_point;
  try {
    const double value = parse_quantity(fmt::format("--{}", option.name), text, option.dimension, option.unit);
    if (ambiguous) as_in_lists(option, text);
    return value;
  } catch (const InputError& error) {
    if (const auto value = as_in_lists(option, text)) return *value;
    const bool has_sign = text.starts_with('-') || text.starts_with('+');
    if (has_sign && as_in_lists(option, text.substr(1))) throw UsageError(option_error(option, fmt::format("'{}' has both a sign and a side", text)));
    const std::string words = option.words.empty() ? "" : fmt::format("; or one of {}", list_of(option.words));
    throw UsageError(error.what() + words);
  }
}

long integer_of(const Option& option, std::string_view text) {
  long value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) {
    throw UsageError(option_error(option, fmt::format("'{}' is not a whole number", text)));
  }
  return value;
}

std::uint64_t seed_of(const Option& option, std::string_view text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc{} && end == text.data() + text.size()) return value;
  const std::string_view digits = text.starts_with('-') ? text.substr(1) : text;
  if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos) {
    throw UsageError(option_error(option, fmt::format("'{}' is not a whole number", text)));
  }
  throw InputError(option_error(option, fmt::format("'{}' is out of range; allowed: {}", text, range_words(option))));
}

Day day_of(const Option& option, std::string_view text) {
  std::optional<Day> day;
  try {
    day = parse_day(text);
  } catch (const InputError& error) {
    throw InputError(option_error(option, error.what()));
  }
  if (!day) throw UsageError(option_error(option, fmt::format("'{}' is not a day written as YYYY-MM-DD", text)));
  return *day;
}

// The option's value on its own scale, for comparing with its bounds.
double scale_of(const Option& option, std::string_view text) {
  return option.kind == Kind::integer ? static_cast<double>(integer_of(option, text)) : quantity_of(option, text);
}

void check_value(const Option& option, const std::string& text) {
  switch (option.kind) {
    case Kind::flag: return;
    case Kind::text:
    case Kind::file:
    case Kind::folder:
    case Kind::ball:
    case Kind::head:
    case Kind::turf:
      if (text.empty()) throw UsageError(option_error(option, "the value is empty"));
      return;
    case Kind::word:
      if (!meaning_of(option, text)) {
        throw UsageError(option_error(option, fmt::format("'{}' is not one of {}", text, list_of(option.words))));
      }
      return;
    case Kind::day:
      day_of(option, text);
      return;
    case Kind::seed:
      seed_of(option, text);
      return;
    case Kind::integer:
    case Kind::quantity: {
      const double value = scale_of(option, text);
      const bool bounded = !option.low.empty();
      if (bounded && (value < scale_of(option, option.low) || value > scale_of(option, option.high))) {
        throw InputError(option_error(option, fmt::format("'{}' is out of range; allowed: {}", text, range_words(option))));
      }
    }
  }
}

// Three digits, rounded into the range so that what is printed is allowed. `up`: a lower bound.
std::string bound_words(const Option& option, std::string_view text, bool up) {
  if (option.kind == Kind::integer || option.kind == Kind::seed) return std::string(text);
  const double value = unit(option.unit).from_si(quantity_of(option, text));
  if (value == 0.0) return "0";
  const int decimals = std::max(0, 2 - static_cast<int>(std::floor(std::log10(std::abs(value)))));
  const double steps_per_unit = std::pow(10.0, decimals);
  constexpr double kRounding = 1e-6;  // [-] of a step: 20 deg is 20 deg, whatever pi did to it
  const double steps = up ? std::ceil(value * steps_per_unit - kRounding) : std::floor(value * steps_per_unit + kRounding);
  return fmt::format("{:.6g}", steps / steps_per_unit);
}

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

std::string range_words(const Option& option) {
  if (option.low.empty()) return "";
  const std::string low = bound_words(option, option.low, true);
  const std::string ends = fmt::format("{} to {}", low, bound_words(option, option.high, false));
  return option.unit.empty() ? ends : fmt::format("{} {}", ends, option.unit);
}

Values::Values(const Command& command, Typed typed, std::vector<std::string> positionals)
    : command_(command), typed_(std::move(typed)), positionals_(std::move(positionals)) {
  for (const Option* option : options_of(command)) {
    const bool other = !option->excludes.empty() && given(option->excludes);
    if (option->required && !given(option->name) && !other) {
      const std::string or_that = option->excludes.empty() ? "" : fmt::format(" (or --{})", option->excludes);
      throw UsageError(fmt::format("--{}{} is missing: {}", option->name, or_that, option->help));
    }
    if (!given(option->name)) continue;
    if (!option->needs.empty() && !given(option->needs)) {
      throw UsageError(fmt::format("--{} needs --{} beside it", option->name, option->needs));
    }
    if (other) {
      throw UsageError(fmt::format("--{} and --{} exclude each other: give one", option->name, option->excludes));
    }
  }
  for (std::size_t i = 0; i < command.positionals.size(); ++i) {
    if (i < positionals_.size() && !positionals_[i].empty()) continue;
    throw UsageError(fmt::format("{} is missing: {}", command.positionals[i].value, command.positionals[i].help));
  }
  // How the line is written first, what its values say after: a usage error is not hidden behind a value.
  std::optional<InputError> out_of_range;
  for (const auto& [name, text] : typed_) {
    try {
      check_value(find(name), text);
    } catch (const InputError& error) {
      if (!out_of_range) out_of_range = error;
    }
  }
  if (out_of_range) throw InputError(*out_of_range);
}

Values Values::with(std::string_view option, std::string_view changes, std::span<const std::string_view> groups) const {
  Typed typed = typed_;
  std::vector<std::string> known;
  for (const auto& set : command_.options) {
    for (const Option& o : set) {
      const bool may = groups.empty() || std::find(groups.begin(), groups.end(), o.group) != groups.end();
      const bool its_own = o.name == option || o.needs == option;
      if (its_own) typed.erase(std::string(o.name));
      if (may && !its_own) known.emplace_back(o.name);
    }
  }
  std::vector<std::string> seen;
  while (true) {
    const std::size_t start = changes.find_first_not_of(" ,");
    if (start == std::string_view::npos) break;
    changes.remove_prefix(start);
    std::size_t end = changes.find_first_of(" ,");
    const auto digit_at = [&](std::size_t at) { return at < changes.size() && changes[at] >= '0' && changes[at] <= '9'; };
    while (end != std::string_view::npos && changes[end] == ',' && digit_at(end + 1)) {  // a decimal comma
      end = changes.find_first_of(" ,", end + 1);
    }
    const std::string_view pair = changes.substr(0, end);
    changes.remove_prefix(pair.size());
    const std::size_t equals = pair.find('=');
    const std::string name(pair.substr(0, equals));
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      throw UsageError(fmt::format("--{}: there is no '{}' to change; the nearest is '{}'", option, name, nearest(name, known)));
    }
    if (equals == std::string_view::npos || equals + 1 == pair.size()) {
      throw UsageError(fmt::format("--{}: '{}' needs a value, as in {}=VALUE", option, name, name));
    }
    if (std::find(seen.begin(), seen.end(), name) != seen.end()) throw UsageError(fmt::format("--{}: '{}' is given twice", option, name));
    seen.push_back(name);
    typed.erase(name);
    typed.emplace(name, pair.substr(equals + 1));
  }
  if (seen.empty()) throw UsageError(fmt::format("--{} names no change, as in \"attack=2deg\"", option));
  return Values(command_, std::move(typed), positionals_);
}

double Values::quantity(std::string_view name) const {
  return quantity_of(find(name), typed_or_default(name));
}

long Values::integer(std::string_view name) const { return integer_of(find(name), typed_or_default(name)); }

std::uint64_t Values::seed(std::string_view name) const { return seed_of(find(name), typed_or_default(name)); }

Day Values::day(std::string_view name) const { return day_of(find(name), typed_or_default(name)); }

std::string Values::text(std::string_view name) const { return typed_or_default(name); }

std::vector<std::string> Values::texts(std::string_view name) const {
  std::vector<std::string> out;
  for (auto [at, end] = typed_.equal_range(find(name).name); at != end; ++at) out.push_back(at->second);
  return out;
}

const Option& Values::find(std::string_view name) const {
  for (const Option* option : options_of(command_)) {
    if (option->name == name) return *option;
  }
  throw std::logic_error(fmt::format("'{}' has no option --{}", command_.name, name));
}

std::string Values::typed_or_default(std::string_view name) const {
  const auto at = typed_.find(name);
  if (at != typed_.end()) return at->second;
  const Option& option = find(name);
  if (option.fallback.empty()) throw std::logic_error(fmt::format("--{} was not given and has no default", name));
  return std::string(option.fallback);
}

}  // namespace loftwright::cli
