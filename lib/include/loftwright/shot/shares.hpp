/// @file
/// Between two drives: which change made which part of the yards. Shapley shares, each factor switched from its value
/// before to its value after in every order; they add up to the whole change exactly.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <utility>

#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/swing/technique.hpp"

namespace loftwright {

/// Who did what. The change of delivered loft is taken apart: what follows the attack is the swing's, the change of the
/// loft on the club is the club's, and the hands have what is left. Nothing is left over before the swing has changed,
/// so hands enter only after it.
enum class Factor {
  speed,
  swing,       ///< attack, path, and the loft that follows the attack
  club,        ///< the loft on it
  hands,       ///< the rest of the delivered loft; the club's too where its loft is not known
  strike,      ///< toe and high
  face,        ///< face angle
  conditions,  ///< head, ball, air, wind and turf
};
template <>
inline constexpr std::size_t kCountOf<Factor> = 7;          ///< how many there are
std::string_view key_of(Factor factor);                     ///< "speed", ...
std::string_view title_of(Factor factor, bool club_known);  ///< "club speed", ..., "hands or club"

/// What was measured, one by one: attack with the delivered loft held, whatever brought that about.
enum class HeldFactor { club_speed, attack, loft, strike, direction, conditions };
template <>
inline constexpr std::size_t kCountOf<HeldFactor> = 6;  ///< how many there are
std::string_view key_of(HeldFactor factor);             ///< "club_speed", ...

/// One of the two drives.
struct DriveCase {
  Delivery delivery;                  ///< the player's own hand
  Setting setting;                    ///< it is computed in
  std::optional<double> club_loft{};  ///< [rad] on the club, as it is set
  std::optional<double> club_face{};  ///< [rad] that its sleeve opens the face, either hand: where both say, the club's
};

/// What one factor made of the change.
struct Share {
  double carry;  ///< [m]
  double total;  ///< [m]
};
using Shares = EnumArray<Factor, Share>;          ///< by who did what
using HeldShares = EnumArray<HeldFactor, Share>;  ///< by what was measured

/// How much loft follows the attack is an assumption: shares for these beside those for the pupil's own show what it
/// does.
inline constexpr std::array kOtherFollows{0.5, 1.2};  ///< [-]

/// A factor that did not change has shares of exactly zero. At most 96 drives a `follow` and 64 with loft held, each
/// flown once.
class SharesOfChange {
 public:
  /// Computes nothing yet.
  SharesOfChange(const DriveCase& before, const DriveCase& after, Handed handed, double tolerance = kFlightTolerance)
      : before_(std::make_shared<const DriveCase>(before)),
        after_(std::make_shared<const DriveCase>(after)),
        a_(before.delivery),
        b_(after.delivery),
        handed_(handed),
        tolerance_(tolerance) {}
  /// The same change of conditions and of club, between other deliveries.
  SharesOfChange(const SharesOfChange& like, const Delivery& before, const Delivery& after, double tolerance)
      : before_(like.before_),
        after_(like.after_),
        a_(before),
        b_(after),
        handed_(like.handed_),
        tolerance_(tolerance) {}

  /// else the club's share is zero, and the hands'
  bool club_known() const { return before_->club_loft && after_->club_loft; }
  /// Who did what, with this `follow` [-].
  Shares by_who(double follow = kUsualFollow);
  HeldShares loft_held();  ///< what was measured, one by one

  /// Flies side by side, as drive_many does, what by_who of this `follow` and loft_held of all of these will ask for.
  /// Throws std::invalid_argument when they are not all made like one change: the same but for their deliveries.
  static void fly_together(std::span<SharesOfChange> changes, double follow);

 private:
  using Key = std::pair<std::array<double, 7>, bool>;  // a delivery, and whether in the conditions of after

  Delivery delivery_by_who(unsigned changed, double follow) const;
  Delivery delivery_held(unsigned changed) const;
  Share drive(const Delivery& delivery, bool after_conditions);

  std::shared_ptr<const DriveCase> before_, after_;  ///< everything but the deliveries
  Delivery a_, b_;                                   ///< before, after
  Handed handed_;
  double tolerance_;  ///< [-] of the flights
  std::map<Key, Share> flown_;
};

}  // namespace loftwright
