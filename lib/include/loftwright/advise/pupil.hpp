// What the coach knows about a pupil, as plain data. io/pupil_file reads it from JSON; nothing here reads or prints.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/air/air.hpp"
#include "loftwright/air/wind.hpp"
#include "loftwright/equip/head.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/swing/delivery.hpp"
#include "loftwright/swing/technique.hpp"

namespace loftwright {

struct Interval {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};

enum class Goal { carry, total };

// What a limit may be set on.
enum class Limited { spin_loft, launch, spin, apex, landing_angle, side, carry, face_to_path };

// A quantity's value in a drive, and how limits on it are weighed against each other: one unit of scale matters about as
// much for every quantity (1 deg, 100 rpm, 1 m).
std::string_view key_of(Limited quantity);     // "spin_loft", "launch", ... as in files
std::string_view title_of(Limited quantity);   // "spin loft", "launch angle", ... for people
double scale_of(Limited quantity);             // [SI]

struct Limit {
  Limited quantity;
  Interval allowed;  // [SI] either end may be open; side is the side at rest, signed, right positive
};

// Shot-to-shot standard deviations, the units of Delivery.
struct Spread {
  double club_speed = 0.0;    // [m/s]
  double attack = 0.0;        // [rad]
  double path = 0.0;          // [rad]
  double face = 0.0;          // [rad]
  double dynamic_loft = 0.0;  // [rad]
  double toe = 0.0;           // [m]
  double high = 0.0;          // [m]
};

// Lofts that can be had: one driver (low == high) or every loft between two. A sleeve widens a driver to a range and turns
// the face as it turns the loft.
struct LoftChoice {
  double low;                  // [rad]
  double high;                 // [rad]
  double nominal;              // [rad] loft at which the face sits as the player presents it
  double face_per_loft = 0.0;  // [-] rad the face turns right (for a right-hander) per rad of loft away from nominal
  bool in_hand = false;        // the club the pupil plays now
};

// What the player can do about the swing.
struct Reach {
  Interval attack;                // [rad] holds the measured attack
  double follow = 0.6;            // [-] see swing/technique.hpp
  double speed_per_attack = 0.0;  // [m/s per rad] club speed gained as the attack rises (estimate)
};

struct Conditions {
  double altitude = 0.0;             // [m] used for pressure when there is no station pressure
  std::optional<double> pressure;    // [Pa] station
  double temperature = 293.15;       // [K]
  double humidity = 0.5;             // [-]
  Wind wind;
  std::string turf = "medium";       // a data file's id
};

// Pressure is the standard atmosphere's at that altitude unless the station's is given. Throws InputError.
Air air_from(const Conditions& conditions);

// The circle the clubhead runs on, for set-up targets.
struct ArcEstimate {
  double plane = 50.0 * kPi / 180.0;  // [rad] estimate: a driver's plane is commonly 45 to 55 deg
  double radius = 1.6;                // [m] estimate
};

struct Pupil {
  std::string name;
  std::string notes;
  Handed handed = Handed::right;
  Goal goal = Goal::carry;
  Delivery delivery;                       // as the player's hand has it (a left-hander's is not mirrored yet)
  bool delivery_inferred = false;          // from `launch`: only ball numbers were known
  std::optional<Launch> launch;            // as measured, when given
  std::optional<Spread> spread;            // none: nothing is known
  double club_loft = 0.0;                  // [rad] of the driver in hand
  std::string head = "modern-driver";      // a data file's id
  std::vector<LoftChoice> lofts;           // the club in hand is always among them
  Reach reach;
  std::vector<Limit> limits;
  Conditions conditions;
  std::string ball = "reference";          // a data file's id
  ArcEstimate arc;
  double worthwhile = 3.0 * 0.9144;        // [m] the smallest gain that matters to this player
  std::vector<std::string> assumed;        // sentences: what the file left open and what was taken instead
};

}  // namespace loftwright
