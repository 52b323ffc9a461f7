/// @file
/// An answer of `advise --json` on disk, "format": "loftwright-advise/2", as far as a book keeps it: what it promised.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "loftwright/book/book.hpp"
#include "loftwright/core/findings.hpp"

namespace loftwright {

/// What an answer promised, and of which swing.
struct AdvicePromise {
  Promise promise;      ///< its first choice; reference_gain is not known yet
  Delivery measured;    ///< the swing it is of, as the player's hand has it
  Delivery promised;    ///< the delivery of that choice: loft follows the attack, speed is paid
  Delivery loft_alone;  ///< the swing it is of with the loft of that choice
  Handed handed;        ///< whose swing it is
  std::string head;     ///< it was computed with
};

/// Says everything that is wrong, an answer without draws among it: it has no intervals. Empty when there is an error,
/// and, without one, where the advice is to leave things: nothing is promised.
std::optional<AdvicePromise> read_advice(std::string_view text, Findings& findings);

/// The promise as a session keeps it: reference_gain by the reference conditions (reference_setting of the session's
/// head). Throws InputError when the advice is of another hand, head or swing than the session's: attack, delivered
/// loft or club speed off by more than kOtherSwing.
Promise promise_for(const BookedSession& session, Handed handed, const AdvicePromise& advice, const Setting& setting);
/// How far a swing may be from the one advice was given on. Estimates: what two tens of shots leave open.
inline constexpr Delivery kOtherSwing{1.5, 1.5 * kDegree, 0.0, 0.0, 1.5 * kDegree, 0.0, 0.0};

}  // namespace loftwright
