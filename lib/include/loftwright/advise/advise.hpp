// The main job: where the yards are. Four strategies from the same delivery, each solved under every limit and verified;
// what one unit of each lever buys; how little change reaches how much of the gain; and a verdict.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/pupil.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/swing/arc.hpp"

namespace loftwright {

// How far the model may be off, and what the literature leaves open: one standard deviation each, estimates all but where a
// source is named. They shrink when a ball or head is tuned to a player's shots.
struct ErrorWidths {
  double drag_scale = 0.03;              // [-] balls differ by more below Re 1e5 (Lyu, Kensrud & Smith, Proceedings 2 (2018) 238)
  double lift_scale = 0.06;              // [-]
  double restitution = 0.010;            // [-]
  double tangential_restitution = 0.05;  // [-]
  // Of the turf, all times TurfOf::width. A share s: times or over 1 + s.
  double turf_tilt = 2.5 * kDegree;      // [rad]
  double turf_restitution = 0.20;        // [-] share
  double turf_rolling = 0.35;            // [-] share
  double turf_grass = 0.65;              // [-] share
  double turf_tilt_speed = 0.5;          // [-] share
  double turf_rise_below = 0.3;          // [-] the greatest rise lies at most this far below the turf's ...
  double turf_rise_above = 0.2;          // [-] ... or above it, as follow does
  double turf_friction_below = 0.5;      // [-] friction is the turf's or, in half of all draws, up to this much less
  // Level tees and fairways sloping 5 deg moved delivered loft by 0.85 and 1.23 deg a degree of attack (Suzuki et al., Open
  // Sports Sci. J. 14 (2021) 137; second-hand).
  double follow_below = 0.4;             // [-] follow lies at most this far below the pupil's ...
  double follow_above = 0.4;             // [-] ... or above it, never outside 0..kMostFollow; as likely below as above, rarely near an end
  double speed_per_attack = 0.15 * 0.44704 / kDegree;  // [m/s per rad] 0.15 mph a degree
};

struct AdviseOptions {
  double tolerance = kFlightTolerance;              // [-] of the flights the optimiser spends
  double tight_tolerance = kTightFlightTolerance;   // [-] of the flights an optimum is verified with
  double stop = 1e-6;                               // [rad] how closely loft and attack are found
  double draw_tolerance = 6e-5;                     // [-] of the flights draws spend: a centimetre, where yards are doubted
  int threads = 1;                                  // [-] for the draws; the answer is the same for any number
  ErrorWidths widths;
  int draws = 4000;             // [-] of everything uncertain together; 0: no confidence is computed. A power of two is best
  int part_draws = 512;         // [-] of shots alone and of knowledge alone
  int expected_draws = 32;      // [-] shots the expected value is averaged over when the optimum is sought for it
  int influence_draws = 256;    // [-] see Influence; it costs twice as many drives as draws times factors
  int measuring_draws = 64;     // [-] see Measuring
  std::uint64_t seed = 1;       // the same seed gives the same bytes
};

// A limit is met when it is kept to within this part of its scale (scale_of): what flights are exact to.
inline constexpr double kLimitSlack = 1e-3;

// How one limit stands at a solution.
struct LimitState {
  Limited quantity;
  double value;     // [SI]
  Interval allowed;
  double slack;     // [SI] distance to the nearer end; negative: broken
  bool active;      // met, and holding the solution where it is
  bool broken;
};

enum class StrategyKind { as_is, loft_only, technique_only, both };
std::string_view key_of(StrategyKind kind);   // "as_is", ...
std::string_view title_of(StrategyKind kind);  // "as is", ...

struct Verification {
  double tight_change = 0.0;    // [m] goal by tight tolerance minus goal by the optimiser's
  double restart_change = 0.0;  // [m] best goal found from other starts minus this one: positive would be a miss
};

struct Strategy {
  StrategyKind kind = StrategyKind::as_is;
  bool feasible = true;             // every limit met
  double loft = 0.0;                // [rad] of the club
  double attack = 0.0;              // [rad]
  Delivery delivery;                // as the player's hand has it
  Drive drive;                      // verified, at tight tolerance
  double goal = 0.0;                // [m] carry or total
  double gain = 0.0;                // [m] goal minus as-is goal
  std::vector<LimitState> limits;
  bool at_loft_end = false;         // held by the lofts on offer
  bool at_reach_end = false;        // held by the player's reach
  // Infeasible only: the limit that must give, and by how much, at the point that breaks the limits least.
  std::optional<LimitState> must_give;
  Verification verification;
};

// What one unit of one lever changes at the as-is delivery, all else held unless it says otherwise. Exact derivatives of impact,
// flight and run.
struct Rate {
  double carry = 0.0;   // [m per SI unit of the lever]
  double total = 0.0;   // [m per ...]
  double launch = 0.0;  // [rad per ...]
  double spin = 0.0;    // [rad/s per ...]
};
struct ExchangeRates {
  Rate attack{};            // per rad, as this player would make it: loft follows, speed is paid
  Rate attack_loft_held{};  // per rad, delivered loft and speed held
  Rate loft{};              // per rad of club loft
  Rate club_speed{};        // per m/s
  Rate launch_spin{};       // per rad/s of spin at the same launch
  Rate launch_angle{};      // per rad of launch at the same spin
};

// For one loft on offer: the least attack change that reaches a share of the whole gain (that of `both`).
inline constexpr std::array<double, 3> kTradeShares{0.50, 0.80, 0.95};
struct TradeRow {
  double loft;                                               // [rad]
  double gain_at_present_attack;                             // [m]
  std::array<std::optional<double>, kTradeShares.size()> attack_change;  // [rad]; none: out of reach with this loft
};

enum class Lever { technique, loft, either, both, leave };
std::string_view key_of(Lever lever);

// 80 % of the draws lie between low and high.
struct Interval80 {
  double low;   // [m] 10 % of the draws are below
  double mean;  // [m]
  double high;  // [m] 10 % are above
};

// A strategy's decision (loft and attack) is fixed first and then judged over the draws, as it will be in life. Every draw
// serves all strategies, so that what they share cancels and differences are sharp.
struct StrategyConfidence {
  Interval80 gain;                 // over everything: the gain of one drive over the same drive as is
  Interval80 gain_shots;           // over the player's own scatter alone: what practice can shrink
  Interval80 gain_knowledge;       // over model error, measurement and what the literature leaves open: what measuring can shrink
  double worthwhile_probability;   // [-] of a gain of at least the smallest worthwhile one
  // The best loft and attack for the mean of scattered drives rather than the perfect strike, and what they gain on average.
  double expected_loft;            // [rad]
  double expected_attack;          // [rad]
  double expected_gain;            // [m] mean gain of that decision over the shots
  double expected_advantage;       // [m] mean goal of that decision minus that of the perfect strike's decision
};

// What the verdict leans on.
enum class Assumption {
  shots,                   // the player's scatter, drive by drive
  measured_club_speed,     // means of few shots
  measured_attack,
  measured_dynamic_loft,
  measured_strike,         // path, face, toe and high together
  drag,
  lift,
  restitution,
  tangential_restitution,
  turf_bounce,             // tilt, restitution, friction and rise together
  turf_roll,               // rolling resistance and grass together
  follow,
  speed_cost,
};
inline constexpr std::size_t kAssumptions = 13;
std::string_view key_of(Assumption assumption);

// Share of the variance of (technique gain - loft gain), and where the verdict would turn.
struct Influence {
  Assumption assumption;
  double first;                    // [-] alone
  double total;                    // [-] with all it acts together with
  double taken;                    // [SI] the value assumed (shots: 0)
  std::optional<double> flips_at;  // [SI] the nearest value within two standard deviations (follow: its range) that turns the verdict
  Lever becomes = Lever::leave;    // what the verdict turns to there
};

// What it would be worth to know better before deciding: the mean gain of deciding again over keeping the decision of
// `both`, over the draws of what would then be known. [m]
struct Measuring {
  double ten_more_shots;  // the delivery
  double tuned_ball;      // drag, lift, restitution, spin
  double trial_lesson;    // follow and what speed the change costs
  double everything;
};

struct Confidence {
  int draws = 0;
  std::uint64_t seed = 0;
  std::array<std::optional<StrategyConfidence>, 4> strategies;  // none for as is and for what is infeasible
  std::optional<double> technique_over_loft;  // [-] probability of the longer drive; none when either is infeasible
  std::optional<double> both_over_technique;
  std::optional<double> both_over_loft;
  double verdict_probability = 0.0;           // [-] of what the verdict says; see docs/verdict.md
  std::vector<Influence> influences;          // most influential first; empty unless both levers are feasible
  Measuring measuring{};
  const std::optional<StrategyConfidence>& at(StrategyKind kind) const { return strategies[static_cast<std::size_t>(kind)]; }
};

// One draw's gains, and the verdict over many: see docs/verdict.md. Infeasible: minus infinity.
struct Gains {
  double loft, technique, both;  // [m]
};
struct Ruling {
  Lever lever;
  double probability;  // [-]
};
Ruling rule(const std::vector<Gains>& draws, double worthwhile);

// Where a verdict turns as one assumption moves along its quantile (0.5: as assumed), two standard deviations either way;
// the nearer of the two sides. None: it holds.
struct Turn {
  double quantile;  // [-] 0.0228 .. 0.9772, found to 0.002
  Lever becomes;
};
std::optional<Turn> nearest_turn(const std::function<Lever(double quantile)>& verdict_at, Lever now);

// One combination worth its effort: no other gains more for less.
struct EffortPoint {
  double effort;                     // [-]
  double gain;                       // [m]
  double loft;                       // [rad]
  double attack;                     // [rad]
  std::vector<std::size_t> options;  // indices into Reach::options
};

// What the chosen technique means at address, on the pupil's arc.
struct SetUp {
  double low_point_now;     // [m] ahead of the ball
  double low_point_target;  // [m]
  double ball_forward;      // [m] move the ball towards the target by this
  double path_change;       // [rad] of the path when that is all that moves, right of target positive; the answer holds the path
  double swing_direction_change;     // [rad] the swing turned by this keeps the path
  std::optional<double> tee_higher;  // [m] the ball is struck this far below the middle of the face (above it: negative); none: near it
};

struct Advice {
  Goal goal = Goal::carry;
  std::array<Strategy, 4> strategies;   // in the order of StrategyKind
  bool feasible = true;                 // `both`, the widest, meets every limit
  ExchangeRates rates;
  std::vector<TradeRow> trade;
  Lever verdict = Lever::leave;         // with confidence where there is one, else on the gains as they stand
  std::optional<Confidence> confidence;
  std::vector<EffortPoint> effort_front;  // least effort first; empty unless the pupil's reach lists options
  std::optional<SetUp> set_up;          // none when technique is not part of the answer, or the plane is too flat
  int strategy_flights = 0;             // spent on the four strategies
  int flights = 0;                      // spent on all of it

  const Strategy& at(StrategyKind kind) const { return strategies[static_cast<std::size_t>(kind)]; }
};

// Throws InputError when the pupil's own numbers are out of range; an infeasible problem is an answer, not an error.
Advice advise(const Pupil& pupil, const Setting& setting, const AdviseOptions& options = {});

}  // namespace loftwright
