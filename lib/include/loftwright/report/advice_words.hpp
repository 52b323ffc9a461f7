/// @file
/// What advice means in plain words, for the screen, the page and inside JSON. Nothing here computes physics.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/advise/explain.hpp"
#include "loftwright/report/words.hpp"

namespace loftwright {

/// What one unit of a lever is worth in club speed: [m/s per unit of `lever`]. None when speed buys nothing.
std::optional<double> worth_in_club_speed(const Rate& lever, const Rate& club_speed, Goal goal);

/// A degree of attack and of loft in terms of club speed, in one sentence. Empty when speed buys nothing.
std::string worth_sentence(const Advice& advice, UnitSystem units);

/// The answer to "technique or loft?": what to do, how sure, what it adds to the average drive; for an infeasible
/// problem, what must give.
std::string verdict_sentence(const Advice& advice, UnitSystem units);

/// The lofts that are as good as the best, and what another ball would say where it differs. A sentence each.
std::vector<std::string> loft_sentences(const Advice& advice, UnitSystem units);

/// Of ten drives with what the verdict names, how many gain, and what eight of ten gain. Empty without confidence, or
/// to leave.
std::string drives_sentence(const Advice& advice, UnitSystem units);

/// What pupils of the academy reached of such promises, and what that makes of this one; the verdict stands on the
/// whole gain. Empty where the advice does not know, or names no change of swing.
std::string reached_sentence(const Advice& advice, UnitSystem units);
/// How it begins, without a full stop: whose pupils, and the share.
std::string reached_words(const ReachedShare& reached);

/// "93 %", never "0 %" or "100 %": no count of draws proves that.
std::string probability_words(double probability);

/// "+13 to +35", without the unit.
std::string interval_numbers(const Interval80& interval, UnitSystem units);

/// Which strategy goes further than which, in how many drives. Empty without confidence.
std::vector<std::string> odds_sentences(const Advice& advice);

/// The three assumptions that matter most to technique against loft, each with the value that would turn the verdict,
/// if any.
std::vector<std::string> leaning_sentences(const Advice& advice, UnitSystem units);

/// What knowing more before deciding would be worth, and what aiming for the average drive would. Empty
/// without confidence or when nothing is feasible.
std::vector<std::string> measuring_sentences(const Advice& advice, UnitSystem units);

/// Why, at a pupil's level: one sentence a claim, every number the claim's own. At most 200 words together. `club`:
/// what gives the best loft alone, another driver or the turn of a sleeve ("A loft").
std::string claim_sentence(const Claim& claim, Goal goal, UnitSystem units, std::string_view club = "A driver");
/// The same for all claims of explain().
std::vector<std::string> explanation(const Advice& advice, UnitSystem units);

/// What holds each strategy where it is: limits met exactly or broken, the lofts on offer, the reach. A sentence each.
std::vector<std::string> holding_sentences(const Advice& advice, UnitSystem units);

/// Set-up at address for the chosen technique. Empty when the advice carries none.
std::vector<std::string> set_up_sentences(const Advice& advice, UnitSystem units);

}  // namespace loftwright
