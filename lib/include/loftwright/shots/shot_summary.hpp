/// @file
/// What a shot list says as a whole: middle and scatter of each reading, what goes with what, and the delivery block of
/// a pupil file.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shots/shot_list.hpp"
#include "loftwright/stats/detail/summary.hpp"

namespace loftwright {

/// Whether shots that stand far out count.
enum class Outliers { keep, leave_out };

/// The shots counted, and one reading of those that have it, in their order.
std::vector<const Shot*> counted(const ShotList& list, Outliers odd);
/// [SI] Without those that lack it.
std::vector<double> values_of(const std::vector<const Shot*>& shots, Reading reading);

/// Two readings of the shots that have both.
std::pair<std::vector<double>, std::vector<double>> both_of(const std::vector<const Shot*>& shots, Reading a,
                                                            Reading b);

/// Middle and scatter of one reading.
struct ReadingSummary {
  Reading reading;   ///< which
  Summary summary;   ///< [SI]
  double median;     ///< [SI]
  double robust_sd;  ///< [SI]
};

/// What a list says as a whole.
struct ShotSummary {
  std::vector<ReadingSummary> readings;  ///< those with at least one value, in the order of Reading
  /// correlations[i][j] of readings i and j over the shots that have both; empty with fewer than kLeastForCorrelation
  /// of these or when either does not vary.
  std::vector<std::vector<std::optional<double>>> correlations;  ///< [-]
};
inline constexpr std::size_t kLeastForCorrelation = 4;  ///< [-] shots (estimate)

/// Of the shots counted.
ShotSummary summarise(const ShotList& list, Outliers odd = Outliers::keep);

/// Two readings that clearly go together: |r| of at least kStrongCorrelation, and larger than chance alone makes it one
/// time in a hundred (Fisher's transform, Metron 1 (1921) 3).
struct Togetherness {
  Reading first;       ///< earlier in the order of Reading
  Reading second;      ///< later
  double correlation;  ///< [-]
};
inline constexpr double kStrongCorrelation =
    0.6;  ///< [-] estimate: half of the scatter of one goes with the other at 0.7

/// The strongest first.
std::vector<Togetherness> strong_correlations(const ShotSummary& summary);

/// Mean delivery and shot-to-shot scatter, as a pupil file takes them. The scatter includes the device's own.
struct DeliveryBlock {
  Delivery mean;                       ///< as the player's hand has it
  std::optional<Spread> spread;        ///< with fewer than two shots nothing is known; for correlations see below
  std::size_t count = 0;               ///< shots behind the scarcest reading
  std::vector<Reading> taken_as_zero;  ///< no column: zero mean, zero scatter
  bool inferred = false;               ///< from ball numbers, for strikes at the face centre
  std::vector<Reading> worked_out;     ///< then: which of club speed, attack and delivered loft no shot had measured
};

/// Empty unless club speed, attack and dynamic loft are there. Correlations are those of the shots that have all the
/// readings (at least kLeastForCorrelation of them), drawn towards zero: from few shots they are mostly chance, and
/// they must be possible together. How far is the estimate of Schaefer & Strimmer (Stat. Appl. Genet. Mol. Biol. 4
/// (2005) 32, memory), at least 1 %.
std::optional<DeliveryBlock> delivery_block(const ShotList& list, Outliers odd = Outliers::keep);

}  // namespace loftwright
