// The main job: where the yards are. Four strategies from the same delivery, each solved under every limit and verified;
// what one unit of each lever buys; how little change reaches how much of the gain; and a verdict.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/pupil.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/swing/arc.hpp"

namespace loftwright {

struct AdviseOptions {
  double tolerance = kFlightTolerance;              // [-] of the flights the optimiser spends
  double tight_tolerance = kTightFlightTolerance;   // [-] of the flights an optimum is verified with
  double stop = 1e-6;                               // [rad] how closely loft and attack are found
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

// Change of carry and total per unit of one lever at the as-is delivery, all else held. Exact derivatives.
struct Rate {
  double carry;  // [m per SI unit of the lever]
  double total;
};
struct ExchangeRates {
  Rate attack;        // per rad, as this player would make it: loft follows, speed is paid
  Rate loft;          // per rad of club loft
  Rate club_speed;    // per m/s
  Rate launch_spin;   // per rad/s of spin at the same launch
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

// What the chosen technique means at address, on the pupil's arc.
struct SetUp {
  double low_point_now;     // [m] ahead of the ball
  double low_point_target;  // [m]
  double ball_forward;      // [m] move the ball towards the target by this
  double tee_higher;        // [m] the clubhead passes higher above its low point by this
};

struct Advice {
  Goal goal = Goal::carry;
  std::array<Strategy, 4> strategies;   // in the order of StrategyKind
  bool feasible = true;                 // `both`, the widest, meets every limit
  ExchangeRates rates;
  std::vector<TradeRow> trade;
  Lever verdict = Lever::leave;
  std::optional<SetUp> set_up;          // none when technique is not part of the answer, or the plane is too flat
  int flights = 0;                      // spent on all of it

  const Strategy& at(StrategyKind kind) const { return strategies[static_cast<std::size_t>(kind)]; }
};

// Throws InputError when the pupil's own numbers are out of range; an infeasible problem is an answer, not an error.
Advice advise(const Pupil& pupil, const Setting& setting, const AdviseOptions& options = {});

}  // namespace loftwright
