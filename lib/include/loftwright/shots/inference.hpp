/// @file
/// What a device did not measure, from the impact and flight model; and, where it measured both sides of the impact,
/// whether they go together.
#pragma once

#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

/// The impact either way for a player of either hand. Signs as in Reading: right is right for left-handers too. Both
/// throw InputError: numbers out of range, a launch that no delivery gives.
Launch launch_from(const Delivery& delivery, Handed handed, const Head& head, const Ball& ball);
/// Struck at the face centre.
Delivery delivery_from(const Launch& launch, Handed handed, const Head& head, const Ball& ball);

/// Ball numbers of a shot; empty unless ball speed, launch and spin are there. Azimuth and tilt without a reading are
/// zero.
std::optional<Launch> launch_of(const Shot& shot);
/// Delivery of a shot; empty unless club speed, attack and dynamic loft are there. The rest without a reading is zero.
std::optional<Delivery> delivery_of(const Shot& shot);

/// A list with what the model adds.
struct Completed {
  ShotList list;                    ///< with the readings that could be computed in the empty places
  ByReading<std::size_t> computed;  ///< shots in which a reading was computed
  std::vector<Note> notes;          ///< shots for which the model has no answer, by line
};

/// Fills in what a shot lacks and the model gives: a delivery from ball numbers (struck at the face centre, so scatter
/// of the strike turns up as scatter of the swing), ball numbers from a delivery, flight and run from ball numbers,
/// smash and spin loft. A reading that was measured is never replaced, and directions are computed only from
/// directions: without azimuth and tilt there is no path, face or side, without path and face no azimuth or tilt.
Completed complete(const ShotList& list, const Setting& setting, Handed handed);

/// What was computed, alone: `completed` without the readings of `measured`.
ShotList only_computed(const Completed& completed, const ShotList& measured);

/// The block of a list's own readings, or where there is none, of those computed from its ball numbers (`inferred`).
std::optional<DeliveryBlock> delivery_block(const ShotList& list, const Setting& setting, Handed handed, Outliers odd);

/// Standard deviations of what the model does not know: those of advise, and of a mean strike that was not measured.
struct ModelWidth {
  double restitution = ErrorWidths{}.restitution;                        ///< [-]
  double tangential_restitution = ErrorWidths{}.tangential_restitution;  ///< [-]
  double toe = 0.005;                                                    ///< [m] estimate
  double high = 0.005;                                                   ///< [m] estimate
  double drag_scale = ErrorWidths{}.drag_scale;                          ///< [-]
  double lift_scale = ErrorWidths{}.lift_scale;                          ///< [-]
};

/// One reading, measured and computed from the other side of the impact or, for the flight, from the ball numbers.
struct ConsistencyRow {
  Reading reading;     ///< which
  Summary difference;  ///< [SI] measured - computed, over the shots that allow both
  double model_width;  ///< [SI] standard deviation the model itself leaves in the mean difference, at the mean shot
  bool agrees;         ///< |mean difference| within two standard deviations of chance and model together
};

/// Computed from the delivery: ball speed, launch, spin, and with path and face measured azimuth and tilt. From the
/// ball numbers: carry, apex, landing, and with azimuth and tilt measured side. Both as measured: run this before
/// `complete`.
struct Consistency {
  std::vector<ConsistencyRow> rows;  ///< empty: no shot has both sides
  std::vector<Note> notes;           ///< shots the model has no answer for, by line
};

/// The device's own systematic error is not in model_width: a row that does not agree says that device, model or
/// setting (ball, head, weather) is off, not which.
Consistency consistency(const ShotList& list, const Setting& setting, Handed handed, Outliers odd = Outliers::keep,
                        const ModelWidth& width = {});

/// All that a shot list says.
struct ShotsAnswer {
  std::string file;                    ///< as the user named it
  ShotList list;                       ///< as read
  Handed handed;                       ///< the player's
  Outliers odd;                        ///< whether outliers count
  Completed completed;                 ///< with what the model adds
  Consistency consistency;             ///< do both sides of the impact go together?
  std::optional<DeliveryBlock> block;  ///< none: neither the delivery nor the ball's start was measured
};

}  // namespace loftwright
