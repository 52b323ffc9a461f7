// The pictures of an answer, each an SVG that says in words what it shows.
#pragma once

#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/report/words.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

// The strategies a pupil is shown beside the drive as it is: what the verdict names, or the widest when it names none.
std::vector<StrategyKind> advised(const Advice& advice);

// What pictures show: the drive as it is, and every strategy that breaks no limit.
std::vector<Strategy> drawn(const Advice& advice);

// How a strategy is drawn everywhere: its class in page.css, its mark.
std::string look_of(StrategyKind kind);
Mark mark_of(StrategyKind kind);

// Flights from the side, with landing and run-out below them.
std::string flights_picture(const Advice& advice, const Setting& setting, UnitSystem units);

// What each change gains the average drive, with the interval it lies in eight times in ten.
std::string gains_picture(const Advice& advice, UnitSystem units);

// The goal over loft and attack: where the pupil is, what is within reach and on offer, where the best points are.
std::string map_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units);

// Where drives come to rest, from above.
std::string finish_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units);

// The mark and line of a strategy, for keys in running text.
std::string key_picture(StrategyKind kind);

}  // namespace loftwright
