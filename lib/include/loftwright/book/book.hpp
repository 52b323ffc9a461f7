/// @file
/// The record of a pupil: sessions, each with the delivery of its day, made comparable by one drive of each delivery
/// under the same conditions. Plain data; book_file keeps it on disk, history says what it shows.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/book/day.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

/// The model's drive of a delivery with the session's head on a default Course: ball "reference",
/// turf "medium", sea level, 20 C, 50 % humidity, calm.
struct ReferenceDrive {
  double carry = 0.0;   ///< [m]
  double total = 0.0;   ///< [m]
  std::string program;  ///< version that computed it: another may compute another carry
};

/// `setting` is that of the reference conditions (reference_setting of files/catalogue). The hand matters: the strike
/// point stays on the toe while path and face are mirrored. Throws InputError for a delivery out of range, or one from
/// which the model computes no drive.
ReferenceDrive reference_drive(const Delivery& delivery, Handed handed, const Setting& setting);

/// What is kept of a shot list.
struct BookedShots {
  std::string file;           ///< as it was named
  std::size_t counted = 0;    ///< shots the numbers are of
  std::size_t set_aside = 0;  ///< rows that could not be shots
  std::size_t left_out = 0;   ///< odd shots not counted
  /// What is kept of one reading.
  struct Reading {
    loftwright::Reading reading;  ///< which
    Summary summary;              ///< [SI]
  };
  std::vector<Reading> readings;  ///< as measured, in the order of Reading
  /// [-] how delivered loft and club speed went with attack, shot by shot, drawn towards zero as delivery_block does;
  /// none: too few shots, or of a book from before this was kept
  std::optional<double> loft_with_attack{};
  std::optional<double> speed_with_attack{};  ///< likewise
};

/// What advice on a session's swing promised: its first choice, with the gain of the average drive as it was told.
struct Promise {
  Lever lever = Lever::technique;  ///< technique, loft or both
  Goal goal = Goal::carry;         ///< what the gains are of
  double loft = 0.0;               ///< [rad] of the club, to be played
  double attack = 0.0;             ///< [rad] to be reached
  double gain = 0.0;               ///< [m] mean over what is not known ...
  double gain_low = 0.0;           ///< [m] ... eight of ten lie between this ...
  double gain_high = 0.0;          ///< [m] ... and this
  /// [m] what the promised delivery goes further than the session's under the reference conditions: what later
  /// sessions are held against
  double reference_gain = 0.0;
  double reference_loft_gain = 0.0;  ///< [m] of that what the promised loft does with the swing as it is
};

/// How the sleeve of a session's driver was set.
struct BookedSleeve {
  std::string name;        ///< as the sleeve is marked; at most kLongestName bytes, one line
  double head_loft = 0.0;  ///< [rad] marked on the head, 4 .. 30 deg
  double face = 0.0;       ///< [rad] that it turns the face, as LoftChoice::face
};

/// A session of the record.
struct BookedSession {
  int number = 0;                      ///< never given twice in a book
  Day date;                            ///< when it was
  std::string notes;                   ///< at most kLongestNotes bytes
  std::optional<double> loft;          ///< [rad] of the driver as it was set, 4 .. 30 deg
  std::optional<BookedSleeve> sleeve;  ///< which makes that loft of the head's; none: nobody said
  std::string head = "modern-driver";  ///< a data file's id or path
  std::optional<Course> course;        ///< as it was played; none: nothing was said of it
  Delivery delivery;                   ///< as the player's hand has it; of a shot list the mean
  bool delivery_inferred = false;      ///< worked back from ball numbers
  std::optional<BookedShots> shots;    ///< none: the delivery was given as such
  ReferenceDrive reference;            ///< what makes sessions comparable
  std::optional<Promise> promised{};   ///< none: no advice was kept with it
};

/// The whole record of one pupil.
struct Book {
  int version = 0;                      ///< rises by one with every change that is kept; 0: never kept
  std::string pupil;                    ///< at most kLongestName bytes, one line
  Handed handed = Handed::right;        ///< the pupil's hand
  std::vector<BookedSession> sessions;  ///< by date, those of one day by number; at most kMostSessions
};
inline constexpr std::size_t kLongestName = 200;     ///< [bytes]
inline constexpr std::size_t kLongestNotes = 10000;  ///< [bytes]
inline constexpr std::size_t kMostSessions = 5000;   ///< [-] in one book

/// Fills in delivery, delivery_inferred and shots: the mean delivery as measured or, when a list has only ball numbers,
/// worked back from each with the setting's head and ball. Returns the block they come of, which says what was assumed.
/// Throws InputError when neither can be.
DeliveryBlock take_shots(BookedSession& session, const std::string& file, const ShotList& list, Outliers odd,
                         Handed handed, const Setting& setting);

/// Numbers the session after the book's version and puts it in its place. The session as it stands there.
const BookedSession& add_session(Book& book, BookedSession session);

/// Another session of the book with the very same numbers as this one: of a list at any date, of a delivery typed in on
/// the same day. Null when there is none.
const BookedSession* same_session(const Book& book, const BookedSession& session);

/// The session of that number; without a number the last by date. Throws InputError when there is none; it lists those
/// there are.
const BookedSession& session_of(const Book& book, std::optional<int> number = {});

/// Puts a corrected session in the place of the one with its number, and by its day. The reference drive is computed
/// anew, in `reference` (reference_setting of its head), when the head or the delivery is another; else it stays as it
/// was kept. The session as it stands there. Throws InputError when there is none of that number, when nothing is
/// another, for what only new shots can correct (the delivery of a list, and the head behind a delivery that was worked
/// back), and where a promise made of the head or delivery as they were would stay.
const BookedSession& edit_session(Book& book, BookedSession corrected, const Setting& reference);

/// Throws InputError when there is none of that number; it lists those there are.
void remove_session(Book& book, int number);

}  // namespace loftwright
