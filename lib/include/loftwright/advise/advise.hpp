/// @file
/// The main job: where the yards are. Four strategies from the same delivery, each solved under every limit and
/// verified; what one unit of each lever buys; how little change reaches how much of the gain; and a verdict.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/swing/arc.hpp"

namespace loftwright {

/// How far the model may be off, and what the literature leaves open: one standard deviation each, estimates all but
/// where a source is named. They shrink when a ball or head is tuned to a player's shots.
struct ErrorWidths {
  double drag_scale = 0.03;  ///< [-] balls differ by more below Re 1e5 (Lyu, Kensrud & Smith, Proceedings 2 (2018) 238)
  double lift_scale = 0.06;  ///< [-]
  double restitution = 0.010;            ///< [-]
  double tangential_restitution = 0.05;  ///< [-]
  // Of the turf, all times TurfOf::width. A share s: times or over 1 + s.
  double turf_tilt = 2.5 * kDegree;  ///< [rad]
  double turf_restitution = 0.20;    ///< [-] share
  double turf_rolling = 0.35;        ///< [-] share
  double turf_grass = 0.65;          ///< [-] share
  double turf_tilt_speed = 0.5;      ///< [-] share
  double turf_rise_below = 0.3;      ///< [-] the greatest rise lies at most this far below the turf's ...
  double turf_rise_above = 0.2;      ///< [-] ... or above it, as follow does
  double turf_friction_below = 0.5;  ///< [-] friction is the turf's or, in half of all draws, up to this much less
  HeadWidths head;                   ///< times HeadOf::width
  // Level tees and fairways sloping 5 deg moved delivered loft by 0.85 and 1.23 deg a degree of attack (Suzuki et al.,
  // Open Sports Sci. J. 14 (2021) 137; second-hand).
  double follow_below = 0.4;  ///< [-] follow lies at most this far below the pupil's ...
  double follow_above =
      0.4;  ///< [-] ... or above it, never outside 0..kMostFollow; as likely below as above, rarely near an end
  double speed_per_attack = 0.15 * 0.44704 / kDegree;  ///< [m/s per rad] 0.15 mph a degree
};

/// How a search is done, and what it may cost.
struct AdviseOptions {
  double tolerance = kFlightTolerance;             ///< [-] of the flights the optimiser spends on limits
  double tight_tolerance = kTightFlightTolerance;  ///< [-] of the flights a well-struck drive is shown with
  double stop = 1e-5;                              ///< [rad] how closely loft and attack are found
  double draw_tolerance = 6e-5;  ///< [-] of the flights averages and draws spend: a centimetre, where yards are doubted
  int threads = 1;               ///< [-] for the draws; the answer is the same for any number
  ErrorWidths widths;            ///< how far the model may be off
  int shots = 64;     ///< [-] drives of the player's scatter that decisions are averaged over; a power of two is best
  int draws = 32768;  ///< [-] of everything uncertain and one drive each; rounded up to whole 256s. 0: no confidence
  std::uint64_t seed = 1;                 ///< the same seed gives the same bytes
  const AeroModel* second_air = nullptr;  ///< asked for a second opinion when given
  bool verdict_only = false;  ///< without trade, effort_front and window, which no verdict needs: a fifth less work
};

/// A limit is met when it is kept to within this part of its scale (scale_of): what flights are exact to.
inline constexpr double kLimitSlack = 1e-3;

/// How one limit stands at a solution.
struct LimitState {
  Limited quantity;  ///< what the limit is on
  double value;      ///< [SI]
  Interval allowed;  ///< [SI]
  double slack;      ///< [SI] distance to the nearer end; negative: broken
  bool active;       ///< met, and holding the solution where it is
  bool broken;       ///< outside by more than kLimitSlack of its scale
};

/// What is changed: nothing, the driver, the swing, or both.
enum class StrategyKind { as_is, loft_only, technique_only, both };
template <>
inline constexpr std::size_t kCountOf<StrategyKind> = 4;  ///< how many there are
std::string_view key_of(StrategyKind kind);               ///< "as_is", ...
std::string_view title_of(StrategyKind kind);             ///< "as is", ...

/// What computing a solution again another way makes of it.
struct Verification {
  double tight_change = 0.0;    ///< [m] goal by tight tolerance minus goal by the optimiser's
  double restart_change = 0.0;  ///< [m] best goal found from other starts minus this one: positive would be a miss
};

/// The average of many drives: the player's scatter and, where there are draws, all that is uncertain.
struct AverageDrive {
  double carry = 0.0;  ///< [m]
  double total = 0.0;  ///< [m]
  double side = 0.0;   ///< [m] at rest, right of the target line
  double fairway_share =
      0.0;  ///< [-] of the drives that come to rest within Pupil::fairway, aimed so that its middle is their mean side
};

/// What to fit: which head, how its sleeve is set, and what that makes.
struct ClubFit {
  double head_loft = 0.0;  ///< [rad] as the head is marked
  std::string setting{};   ///< of its sleeve, by name; empty: none is named
  double loft = 0.0;       ///< [rad] that it makes
  double face = 0.0;       ///< [rad] face angle at address against the club as it is played: open positive, either hand
  bool in_hand = false;    ///< the club the pupil plays now
  bool has_sleeve = false;  ///< the head can be turned
  std::string from{};       ///< in hand: the setting it is turned from, by name; empty: nobody says how it is set
};

/// What the best turn of the club in hand brings at the attack of an answer that buys another driver.
struct OwnTurn {
  bool feasible = true;        ///< some setting of it meets every limit there; else the rest says nothing
  std::optional<ClubFit> fit;  ///< none: it goes furthest as it is set
  double gain = 0.0;           ///< [m] goal minus as-is goal, of the average drive
};

/// The best that one kind of change reaches under every limit.
struct Strategy {
  StrategyKind kind = StrategyKind::as_is;  ///< what it changes
  bool feasible = true;                     ///< every limit met, at the mean delivery
  double loft = 0.0;                        ///< [rad] of the club
  double attack = 0.0;                      ///< [rad]
  LoftChoice club{};                        ///< of those on offer, the one with that loft
  std::optional<ClubFit> fit;               ///< none: nothing is turned or bought
  std::optional<OwnTurn> own_turn;          ///< none: no driver is bought, or the one in hand cannot be turned
  Delivery delivery;                        ///< the mean, as the player's hand has it
  Drive drive;                              ///< well struck: the mean delivery's, at tight tolerance
  AverageDrive average;                     ///< the average of the player's drives
  double goal = 0.0;                        ///< [m] carry or total of the average drive
  double gain = 0.0;                        ///< [m] goal minus as-is goal
  double centred_gain = 0.0;                ///< [m] the same of the well-struck drive
  double price = 0.0;                       ///< [m] what the pupil wants back for it (Prices)
  std::vector<LimitState> limits;           ///< how each of the pupil's limits stands
  bool at_loft_end = false;                 ///< held by the lofts on offer
  bool at_reach_end = false;                ///< held by the player's reach
  /// Infeasible only: the limits that must give together, and by how much (their slack): at this loft and attack the
  /// rest is met.
  std::vector<LimitState> must_give;
  Verification verification;  ///< computed again
};

/// What one unit of one lever changes at the as-is delivery, all else held unless it says otherwise. Exact derivatives
/// of impact, flight and run.
struct Rate {
  double carry = 0.0;   ///< [m per SI unit of the lever]
  double total = 0.0;   ///< [m per ...]
  double launch = 0.0;  ///< [rad per ...]
  double spin = 0.0;    ///< [rad/s per ...]
};
/// What one unit of each lever buys.
struct ExchangeRates {
  Rate attack{};            ///< per rad, as this player would make it: loft follows, speed is paid
  Rate attack_loft_held{};  ///< per rad, delivered loft and speed held
  Rate loft{};              ///< per rad of club loft
  Rate club_speed{};        ///< per m/s
  Rate launch_spin{};       ///< per rad/s of spin at the same launch
  Rate launch_angle{};      ///< per rad of launch at the same spin
};

/// For one loft on offer: the least attack change that reaches a share of the whole gain (that of `both`).
inline constexpr std::array<double, 3> kTradeShares{0.50, 0.80, 0.95};
/// How little change of attack one loft needs.
struct TradeRow {
  double loft;                                                           ///< [rad]
  double gain_at_present_attack;                                         ///< [m] of the average drive
  bool breaks_limit;                                                     ///< as it stands, with the present attack
  std::array<std::optional<double>, kTradeShares.size()> attack_change;  ///< [rad]; none: out of reach with this loft
};

/// What a verdict names: a change of swing, of driver, either of them, both, or none.
enum class Lever { technique, loft, either, both, leave };
template <>
inline constexpr std::size_t kCountOf<Lever> = 5;  ///< how many there are
std::string_view key_of(Lever lever);              ///< "technique", ...

/// Eight of ten lie between low and high.
struct Interval80 {
  double low;   ///< [m] one of ten is below
  double mean;  ///< [m]
  double high;  ///< [m] one of ten is above
};

/// Two kinds of uncertainty, never mixed: what is not known (measured means, model, lesson) makes advice uncertain; the
/// player's scatter makes drives differ. How: docs/verdict.md.
struct StrategyConfidence {
  Interval80 gain;  ///< of the average drive, over what is not known
  Interval80
      drive_gain;  ///< of single drives, over everything: further than the same swing would have sent them before
  double drives_gaining;  ///< [-] share of single drives that gain at all
};

/// What the gains lean on.
enum class Assumption {
  measured_club_speed,  ///< means of few shots
  measured_attack,
  measured_dynamic_loft,
  measured_strike,  ///< path, face, toe and high together
  drag,
  lift,
  restitution,
  tangential_restitution,
  turf_bounce,  ///< tilt, restitution, friction and rise together
  turf_roll,    ///< rolling resistance and grass together
  follow,
  speed_cost,
};
template <>
inline constexpr std::size_t kCountOf<Assumption> = 12;  ///< how many there are
std::string_view key_of(Assumption assumption);          ///< "measured_club_speed", ...

/// Share of the variance of (leader's gain - runner-up's), and where the verdict would turn.
struct Influence {
  Assumption assumption;  ///< which
  double first;           ///< [-] alone; these add up to at most 1
  double total;           ///< [-] with all it acts together with
  double taken;           ///< [SI] the value assumed (several at once: 0)
  std::optional<double>
      flips_at;  ///< [SI] the nearest value within two standard deviations (follow: its range) that turns the verdict
  Lever becomes = Lever::leave;  ///< what the verdict turns to there
};

/// What it would be worth to know better before choosing: the mean net gain of choosing again among the same choices,
/// over the draws of what would then be known. [m]
enum class Measure { ten_more_shots, tuned_ball, trial_lesson, measured_run };
template <>
inline constexpr std::size_t kCountOf<Measure> = 4;  ///< how many there are
std::string_view key_of(Measure measure);            ///< "ten_more_shots", ...
/// [m] What knowing more would be worth.
struct Measuring {
  EnumArray<Measure, double> worth{};  ///< the delivery; drag, lift, restitution, spin; follow and speed cost; the turf
  double everything = 0.0;             ///< [m] to know all of it
};

inline constexpr int kFewMeasured = 6;  ///< [-] fewer drives leave the means so open that averages suffer (estimate)

/// How sure the gains are, over draws of everything uncertain.
struct Confidence {
  int draws = 0;           ///< [-] how many
  std::uint64_t seed = 0;  ///< they were made with
  EnumArray<StrategyKind, std::optional<StrategyConfidence>>
      strategies;  ///< none for as is and for what is infeasible or does not move
  std::optional<double>
      technique_over_loft;  ///< [-] chance of the longer average drive; none when either is not to be had
  std::optional<double> both_over_technique;  ///< [-] likewise
  std::optional<double> both_over_loft;       ///< [-] likewise
  double misfit = 0.0;                        ///< [m] of the surface gains are read off, where it misfits most
  /// [m] goal of the average drive as is with the swing just as measured, which is longer than over all that the swing
  /// may be; none where it was measured by kFewMeasured drives or more.
  std::optional<double> goal_as_measured;
  std::vector<Influence> influences;  ///< most influential first; empty where there is no second choice
  Measuring measuring{};              ///< what knowing more would be worth
  /// of one strategy
  const std::optional<StrategyConfidence>& at(StrategyKind kind) const { return strategies[kind]; }
};

/// One thing the pupil could do. `leave` costs and gains nothing; it is feasible only when the swing as is meets every
/// limit.
struct Choice {
  Lever lever;            ///< leave, loft, technique or both
  bool feasible;          ///< meets every limit
  double loft;            ///< [rad] of the club
  double attack;          ///< [rad]
  double price;           ///< [m]
  double gain = 0.0;      ///< [m] of the average drive, mean over what is not known
  double net_gain = 0.0;  ///< [m] gain - price
  double best_probability =
      0.0;  ///< [-] chance that no other feasible choice has as much net gain; ties go to the cheaper
};

/// How sure a verdict is; docs/verdict.md has the bounds.
enum class Certainty { sure, likely, close };
template <>
inline constexpr std::size_t kCountOf<Certainty> = 3;  ///< how many there are
std::string_view key_of(Certainty certainty);          ///< "sure", ...

/// The rule of docs/verdict.md.
struct Verdict {
  Lever lever = Lever::leave;              ///< what to do
  Lever leader = Lever::leave;             ///< the choice with the most mean net gain: of `either`, the one named first
  Certainty certainty = Certainty::close;  ///< how sure that is
  double probability = 0.0;         ///< [-] that no other feasible choice has over kEqual more net gain than the leader
  double regret = 0.0;              ///< [m] what choosing the leader costs on average against knowing all
  std::optional<Lever> runner_up;   ///< none: nothing else is feasible
  std::optional<Lever> first_step;  ///< with `both`: which to do first, the one with more net gain alone
  std::optional<Measure> measure_first;  ///< of the most worth, when that is kLeastWorth or more
};
inline constexpr double kEqual = 0.9144;             ///< [m] a yard: less is no difference between choices
inline constexpr double kLeastWorth = 0.5 * 0.9144;  ///< [m] (estimate): half of what counts as a difference

/// Net gains of the feasible choices, draw by draw: one list for each lever, all as long, leave's (all zero) among them
/// when it is feasible. `moves` of a lever not among them is ignored. Empty: nothing is feasible.
struct NetGains {
  Lever lever;             ///< the choice
  std::vector<float> net;  ///< [m]
  double mean;             ///< [m]
};
/// What the rule makes of them: pure, of net gains alone.
Verdict rule(const std::vector<NetGains>& choices);
/// The first two steps of the rule alone, on means.
struct Leaders {
  Lever lever;   ///< what the rule names
  Lever leader;  ///< the one choice with the most mean net gain
};
/// Of the `means` of net gains [m]. None: nothing is feasible.
std::optional<Leaders> leaders(const std::vector<std::pair<Lever, double>>& means);

/// Where a verdict turns as one assumption moves along its quantile (0.5: as assumed), two standard deviations either
/// way; the nearer of the two sides. None: it holds.
struct Turn {
  double quantile;  ///< [-] 0.0228 .. 0.9772, found to 0.002
  Lever becomes;    ///< what the verdict turns to
};
/// Asks `verdict_at` some twenty times; `now` is its answer at 0.5.
std::optional<Turn> nearest_turn(const std::function<Lever(double quantile)>& verdict_at, Lever now);

/// One combination worth its effort: no other gains more for less.
struct EffortPoint {
  double effort;                     ///< [-]
  double gain;                       ///< [m]
  double loft;                       ///< [rad]
  double attack;                     ///< [rad]
  std::vector<std::size_t> options;  ///< indices into Reach::options
  std::optional<ClubFit> fit{};      ///< as a Strategy's
};

/// The lofts that lose less than kWindowLoss to the best one, on the average drive: a rack has three lofts and not
/// thirty.
struct LoftWindow {
  double attack;  ///< [rad] they hold for
  double low;     ///< [rad] of the club, the least ...
  double best;    ///< [rad] ... the one that goes furthest ...
  double high;    ///< [rad] ... and the most
  bool feasible;  ///< all of them meet every limit; false: no loft does at that attack, and limits are left aside
};
inline constexpr double kWindowLoss = 2.0 * 0.9144;  ///< [m]

/// What another model of air would say: the ball's own is not the only one that fits what is known.
struct SecondOpinion {
  std::string aero;  ///< its id
  Lever lever;       ///< its verdict, on means
  double loft;       ///< [rad] of its leader
  double attack;     ///< [rad] likewise
  bool differs;      ///< another lever, or a loft more than kSameLoft away
};
inline constexpr double kSameLoft = 2.0 * kDegree;  ///< [rad]

/// What the chosen technique means at address, on the pupil's arc.
struct SetUp {
  double low_point_now;     ///< [m] ahead of the ball
  double low_point_target;  ///< [m]
  double ball_forward;      ///< [m] move the ball towards the target by this
  double path_change;  ///< [rad] of the path when that is all that moves, right of target positive; the answer holds
                       ///< the path
  double swing_direction_change;  ///< [rad] the swing turned by this keeps the path
  std::optional<double>
      tee_higher;  ///< [m] the ball is struck this far below the middle of the face (above it: negative); none: near it
};

/// How much of what advice promised of a swing the pupils of an academy reached (book/lessons.hpp). Eight times in ten
/// their mean lies between low and high. All [-].
struct ReachedShare {
  double share;        ///< mean over pupils
  double low;          ///< of the mean
  double high;         ///< likewise
  std::size_t pupils;  ///< whose promises have an outcome
};

/// All that advise() has to say.
struct Advice {
  Goal goal = Goal::carry;                       ///< what the gains are of
  EnumArray<StrategyKind, Strategy> strategies;  ///< of each kind
  bool feasible = true;                          ///< `both`, the widest, meets every limit
  ExchangeRates rates;                           ///< at the delivery as it is
  std::vector<TradeRow> trade;                   ///< a row for each loft on offer
  std::vector<Choice>
      choices;      ///< most mean net gain first, the infeasible last; a lever that does not move is left out
  Verdict verdict;  ///< without draws on the gains as they stand
  std::optional<Confidence> confidence;   ///< none: AdviseOptions::draws was 0
  std::vector<EffortPoint> effort_front;  ///< least effort first; empty unless the pupil's reach lists options
  std::optional<LoftWindow>
      window;  ///< at the attack the verdict ends with; none: one loft, or no loft that meets every limit
  std::optional<SecondOpinion> second;  ///< with AdviseOptions::second_air
  std::optional<ReachedShare>
      reached;                  ///< for whoever knows it to put in: told beside a verdict that it does not change
  std::optional<SetUp> set_up;  ///< none when technique is not part of the answer, or the plane is too flat
  int strategy_flights = 0;     ///< spent on the four strategies
  int flights = 0;              ///< spent on all of it

  const Strategy& at(StrategyKind kind) const { return strategies[kind]; }  ///< of one kind
};

/// The strategy that does what a lever says; of leave, as is.
StrategyKind strategy_of(Lever lever);

/// Throws InputError when the pupil's own numbers are out of range; an infeasible problem is an answer, not an error.
Advice advise(const Pupil& pupil, const Setting& setting, const AdviseOptions& options = {});

}  // namespace loftwright
