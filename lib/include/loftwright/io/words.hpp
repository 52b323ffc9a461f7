// Text for people, shared by the screen, the page and the sentences inside JSON: quantities in the units people use, and
// what an answer means in plain words. Nothing here computes physics.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/advise/explain.hpp"
#include "loftwright/shots/reading.hpp"
#include "loftwright/tune/tune.hpp"

namespace loftwright {

enum class UnitSystem {
  yards,   // yd, ft for heights, mph, in at address
  metres,  // m, m/s, cm at address
};

// What a number on the screen is. It decides the unit and how many decimals mean something.
enum class Shown {
  distance,    // carry, total, run, side: whole
  gain,        // a difference of distances under the same model: one decimal
  height,      // apex: ft or m, whole
  speed,       // club, ball, wind: one decimal
  speed_cost,  // club speed for a degree of attack: two decimals
  angle,       // deg, one decimal
  spin,        // rpm, to the nearest 10
  at_address,  // low point, ball position, tee: in or cm, one decimal
  on_face,     // strike point: mm
  radius,      // of the arc: ft or m, two decimals
  factor,      // smash, what a model is multiplied by: two decimals, no unit
  coefficient, // what is added to a coefficient of restitution: three decimals, no unit
  time,        // s, one decimal
  temperature, // F or C, whole
};

// Always to be written with its sign, or only when negative.
enum class Sign { minus_only, always };

std::string_view unit_shown(Shown what, UnitSystem units);  // "yd"; "" for a factor

// "182", "-4.0", "+2.5"; never "-0". `si` must be finite; throws std::logic_error otherwise: no reader sees a NaN.
std::string number(Shown what, double si, UnitSystem units, Sign sign = Sign::minus_only);

// The same with its unit: "182 yd".
std::string quantity(Shown what, double si, UnitSystem units, Sign sign = Sign::minus_only);

// "left-handed, playing for total"
std::string pupil_words(const Pupil& pupil);

// The swing and the club as they are now, in one sentence.
std::string delivery_words(const Pupil& pupil, UnitSystem units);

// "path", "path and face", "path, face and toe"
std::string listed(const std::vector<std::string>& words);

// "on the target line", "3 yd right", "12 m left" of the target line. [m], right positive
std::string side_words(double side, UnitSystem units);

// "on the low point", "4.7 in behind the ball". [m], ahead positive
std::string low_point_words(double low_point, UnitSystem units);

// How a quantity that limits are set on is shown.
Shown shown_as(Limited quantity);

// How a reading of a shot is shown, and how a difference or a scatter of such readings.
Shown shown_as(Reading reading);
Shown difference_shown_as(Reading reading);

// "spin at most 3500 rpm", "landing angle between 25.0 deg and 50.0 deg".
std::string limit_words(Limited quantity, const Interval& allowed, UnitSystem units);

// What one unit of a lever is worth in club speed: [m/s per unit of `lever`]. None when speed buys nothing.
std::optional<double> worth_in_club_speed(const Rate& lever, const Rate& club_speed, Goal goal);

// A degree of attack and of loft in terms of club speed, in one sentence. Empty when speed buys nothing.
std::string worth_sentence(const Advice& advice, UnitSystem units);

// The answer to "technique or loft?": what to do, how sure, what it adds to the average drive; for an infeasible problem, what
// must give.
std::string verdict_sentence(const Advice& advice, UnitSystem units);

// The lofts that are as good as the best, and what another ball would say where it differs. A sentence each.
std::vector<std::string> loft_sentences(const Advice& advice, UnitSystem units);

// Of ten drives with what the verdict names, how many gain, and what eight of ten gain. Empty without confidence, or to leave.
std::string drives_sentence(const Advice& advice, UnitSystem units);

// "93 %", never "0 %" or "100 %": no count of draws proves that.
std::string probability_words(double probability);

// "+13 to +35", without the unit.
std::string interval_numbers(const Interval80& interval, UnitSystem units);

// Which strategy goes further than which, in how many drives. Empty without confidence.
std::vector<std::string> odds_sentences(const Advice& advice);

// The three assumptions that matter most to technique against loft, each with the value that would turn the verdict, if any.
std::vector<std::string> leaning_sentences(const Advice& advice, UnitSystem units);

// What knowing more before deciding would be worth, and what aiming for the average drive would. Empty
// without confidence or when nothing is feasible.
std::vector<std::string> measuring_sentences(const Advice& advice, UnitSystem units);

// Why, at a pupil's level: one sentence a claim, every number the claim's own. At most 200 words together.
std::string claim_sentence(const Claim& claim, Goal goal, UnitSystem units);
std::vector<std::string> explanation(const Advice& advice, UnitSystem units);

// What holds each strategy where it is: limits met exactly or broken, the lofts on offer, the reach. A sentence each.
std::vector<std::string> holding_sentences(const Advice& advice, UnitSystem units);

// Set-up at address for the chosen technique. Empty when the advice carries none.
std::vector<std::string> set_up_sentences(const Advice& advice, UnitSystem units);

// What a reader should know about one drive: how it ended if it did not simply land, sliding at impact, air resistance
// beyond the model's data, the doubt about run.
std::vector<std::string> drive_notes(const Drive& drive, const AeroModel& aero, UnitSystem units);

// What the conditions ask for that is not in the numbers: a cold ball. A sentence each.
std::vector<std::string> condition_notes(const Conditions& conditions);

// Ball, turf and weather in one line: what the numbers hold for, and what is not in them.
std::string conditions_words(const Pupil& pupil, const Setting& setting, UnitSystem units);

// What a reading that was fitted to is called: of the total it is the run.
std::string_view fitted_title(Reading reading);

// Whether tuning is worth having: how the tuned model predicts shots it was not fitted to.
std::string tune_verdict_sentence(const TuneResult& result);

// What the shots cannot tell, what was taken instead of what was not measured, and what does not fit.
std::vector<std::string> tune_sentences(const TuneResult& result, UnitSystem units);

// Health, safety, rules of the game and the limits of a model: to stand beside every advice. The first is of the body.
std::vector<std::string> cautions(UnitSystem units);

// Ends of words: "carry", "total", "right", "left", "logarithmic".
std::string_view key_of(Goal goal);
std::string_view key_of(Handed handed);
std::string_view key_of(WindProfile profile);
std::string_view key_of(FlightEnd end);

}  // namespace loftwright
