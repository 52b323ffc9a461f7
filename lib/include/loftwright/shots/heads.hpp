/// @file
/// Heads side by side: shots of two or more drivers by one player on one day. Which one goes furthest on average, how
/// sure that is when so many are compared, which two cannot be told apart and how many more shots would tell, how many
/// fairways each holds, and whether the model, from the mean delivery with each, would have them in the same order.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shots/compare.hpp"
#include "loftwright/shots/inference.hpp"
#include "loftwright/stats/detail/several.hpp"

namespace loftwright {

/// One list as it was read, and what to call it.
struct NamedList {
  std::string name;  ///< without folder and ending
  ShotList list;     ///< its shots in the order they were hit
};

/// The shots of one head.
struct HeadShots {
  std::string name;     ///< as the club column writes it, or the list's
  std::size_t run = 0;  ///< which list they are of, from 0
  ShotList list;        ///< outliers marked among these shots alone
};

/// The shots of lists by head. One list: by the column that names the club. Several: by list, and one with several
/// clubs by list and club. `without`: clubs to pass over, as their column writes them (letter case and spaces do not
/// matter). Shots that name no club where others of the list do are passed over and noted. Throws InputError where
/// there are fewer than two heads, and for a `without` that is not there.
std::vector<HeadShots> by_head(const std::vector<NamedList>& lists, const std::vector<std::string>& without,
                               std::vector<Note>& notes);

/// What is asked of heads.
struct HeadsOptions {
  Goal goal = Goal::carry;               ///< what they are ranked by
  double worthwhile = Prices{}.driver;   ///< [m] the least difference that is worth another driver, 0 .. kMostPrice
  double confidence = 0.95;              ///< [-] with which all intervals hold at once, 0.5 .. 0.9999
  double power = 0.8;                    ///< [-] with which more shots would find a difference
  double fairway = Pupil{}.fairway;      ///< [m] its width
  Outliers odd = Outliers::keep;         ///< whether outliers count
  std::optional<std::string> in_hand{};  ///< name of the head that is played now; none: nobody said
  std::optional<double> club_loft{};     ///< [rad] of it: the head whose name alone says so is it
  std::uint64_t seed = 1;                ///< of the draws behind best_probability
};

/// How true averages of drivers that somebody takes to a fitting scatter about their middle (estimate: two in three
/// within some 5 yd): the size of MeanPrior::between.
inline constexpr double kHeadsApart = 4.0 * 0.9144;  ///< [m]

/// A mean with its scatter and an interval that holds together with those of all heads.
struct AverageReading {
  Summary summary;  ///< [m]
  double low;       ///< [m]
  double high;      ///< [m]
};

/// How many shots a fairway holds whose middle is their mean side.
struct FairwaysHeld {
  std::size_t held;   ///< [-] shots
  std::size_t count;  ///< [-] of so many
  double low;         ///< [-] share: lower end of an interval of this one alone (Wilson, JASA 22 (1927) 209)
  double high;        ///< [-] upper end
  double side;        ///< [m] the mean side, right positive

  double share() const { return static_cast<double>(held) / static_cast<double>(count); }  ///< [-]
};

/// The model's answer for the mean delivery with one head.
struct ModelledHead {
  Delivery delivery;  ///< the mean, as the player's hand has it
  bool inferred;      ///< from ball numbers
  double carry;       ///< [m] well struck: of the mean delivery
  double total;       ///< [m]
  /// [m] measured goal minus the model's, less the mean of the same over the other heads: what is this head's alone.
  double beyond_others;
  double standard_error;   ///< [m] of that: chance (jackknife) and the model
  double explained_up_to;  ///< [m] what chance and the model explain, with the confidence asked for over all heads

  bool explained() const { return -explained_up_to <= beyond_others && beyond_others <= explained_up_to; }  ///< so
};

/// All there is to say of one head.
struct HeadResult {
  std::string name;                      ///< of the head
  std::size_t shots;                     ///< counted, that have the goal
  std::size_t left_out;                  ///< outliers, when these do not count
  std::optional<AverageReading> carry;   ///< none: neither measured nor to be computed for all heads
  std::optional<AverageReading> total;   ///< likewise
  std::optional<FairwaysHeld> fairways;  ///< likewise
  double best_probability;               ///< [-] that its average drive is the longest of all heads
  std::vector<double> goals;             ///< [m] of the goal, shot by shot
  std::optional<ModelledHead> modelled;  ///< none: not every head has a delivery
};

/// What two heads are to each other.
enum class Apart { further, alike, not_yet };
std::string_view key_of(Apart apart);  ///< "further", ...

/// Two heads; `first` goes further on average.
struct HeadPair {
  std::size_t first;   ///< index into HeadsAnswer::heads
  std::size_t second;  ///< likewise
  PairTest test;       ///< [m] of the goal; its own first and second are these
  Apart apart;         ///< further: the interval leaves out zero; alike: all of it is less than what matters
  /// More shots with each that would show a difference as large as seen, or as large as matters when that is more. 0:
  /// told apart, or alike; none: more than 10 000.
  std::optional<std::size_t> shots_needed;
};

/// A head that was not compared.
struct LeftOutHead {
  std::string name;    ///< of it
  std::string reason;  ///< why
};

/// All that is said of heads side by side.
struct HeadsAnswer {
  std::vector<HeadResult> heads;       ///< the longest first
  std::vector<HeadPair> pairs;         ///< all, by first, then second
  std::vector<LeftOutHead> left_out;   ///< not compared
  std::vector<Note> notes;             ///< on reading and on how the shots were hit
  std::optional<std::size_t> in_hand;  ///< index into heads; none: nobody said
  bool carry_computed = false;         ///< by the model, for every shot of every head
  bool total_computed = false;         ///< likewise
  bool side_computed = false;          ///< likewise
  double wandering = 0.0;              ///< [-] share of the scatter that wanders from shot to shot
  double wider = 1.0;                  ///< [-] how much wider the intervals of means are for it, over all heads
  bool in_blocks = false;              ///< every head was hit in one go
  bool model_disagrees = false;        ///< the model has another head first
  HeadsOptions options;                ///< it was asked with

  /// With which the others are compared: the one in hand, else the leader.
  std::size_t against() const { return in_hand.value_or(0); }
  const HeadPair& pair(std::size_t a, std::size_t b) const;  ///< of two different heads
  /// The head furthest from `against` in front that is told apart from it; none: there is none.
  std::optional<std::size_t> better() const;
};

/// Shots of a player of either hand, all hit in one setting. Throws InputError when the goal is neither measured with
/// two heads or more, at least twice each, nor to be computed; for an unknown `in_hand`; for options out of range.
HeadsAnswer compare_heads(const std::vector<HeadShots>& given, const Setting& setting, Handed handed,
                          const HeadsOptions& options = {});

}  // namespace loftwright
