/// @file
/// A pupil made of a session of a book, alone or with a pupil's file beside it, so that nobody types a delivery twice.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/book/book.hpp"
#include "loftwright/core/findings.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

/// Where a part of a pupil was taken from.
enum class TakenFrom { session, book, pupil_file, usual };
template <>
inline constexpr std::size_t kCountOf<TakenFrom> = 4;  ///< how many there are
std::string_view key_of(TakenFrom from);               ///< "session", "book", "pupil_file", "usual"

/// A pupil, and what of it was taken from where.
struct SessionPupil {
  /// One part.
  struct Part {
    std::string_view key;  ///< "delivery", "scatter", "measured_shots", "name", "handed", "club_loft", "head", "ball",
                           ///< "conditions", "rest"
    TakenFrom from;        ///< the rest: limits, reach, lofts on offer, prices ...
  };
  Pupil pupil;                       ///< Pupil::assumed begins with what was taken from where
  std::string text;                  ///< of a pupil's file that gives the same pupil
  std::string book;                  ///< as the user named it
  std::optional<std::string> file;   ///< the pupil's, as the user named it; none: the book alone
  int session = 0;                   ///< its number
  Day date;                          ///< its day
  std::vector<Part> taken;           ///< all parts, in that order
  std::vector<std::string> notices;  ///< where book and file disagree: a sentence each
};

/// A pupil's file as it was found.
struct PupilText {
  std::string file;              ///< as the user named it
  std::string text;              ///< what is in it
  std::filesystem::path folder;  ///< where files named inside are looked for
};

/// The session gives the delivery, its scatter, the number of its drives and the loft on the club (without one that of
/// the last session before on the same head); the file gives everything else, or where there is none the session (head,
/// ball, turf and weather) and the book (name and hand). A file needs no delivery of its own. Throws InputError when
/// nothing says the loft, or when book and file have different hands; FileError for a pupil that cannot be.
SessionPupil pupil_of(const Book& book, const std::string& book_file, const BookedSession& session,
                      const std::optional<PupilText>& file, const Catalogue& catalogue, Findings& warnings);

}  // namespace loftwright
