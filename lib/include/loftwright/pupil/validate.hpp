/// @file
/// Whether a pupil can be advised on: every range and every check across several data, in one place. Readers of files
/// say the same of what they read, with the place where it stands and in the unit in which it was typed.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

/// Throws InputError naming what lies outside its range, is missing (lofts without the club in hand, a reach:
/// complete() fills them in) or goes against something else.
void validate(const Pupil& pupil);

/// Checks across several data: each a sentence for whoever knows the place; empty when all is well. `shown`: the unit
/// to tell it in.
std::optional<std::string> reach_without_attack(const Pupil& pupil, const Unit& shown);
std::vector<std::string> speeds_beyond_reach(const Pupil& pupil, const Unit& shown);  ///< of either end
std::vector<std::string> changes_beyond(const Pupil& pupil);        ///< whatever options are chosen together
std::optional<std::string> lofts_beyond(const LoftChoice& choice);  ///< what the sleeve makes of its ends
/// Of so many quantities.
std::optional<std::string> impossible_together(std::span<const Spread::Correlation> correlations,
                                               std::size_t quantities);

/// The highest attack to aim for. What is measured is possible, whatever is usual. [rad]
double highest_target(const Pupil& pupil);

}  // namespace loftwright
