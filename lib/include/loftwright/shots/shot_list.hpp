/// @file
/// A shot list as a device exports it or a coach types it -> shots in SI. Nothing is dropped in silence: what cannot be
/// a shot is set aside with its line and the reason, what stands far out is marked, and what looks odd about whole
/// columns is noted. How a list may be written: docs/shot-list-format.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/shots/columns.hpp"

namespace loftwright {

/// One shot, as far as it was measured.
struct Shot {
  std::size_t line = 0;                     ///< of the file, from 1
  std::string label;                        ///< as written, likewise the next two; "" when there is no such column
  std::string date;                         ///< as written
  std::string club;                         ///< as written
  ByReading<std::optional<double>> values;  ///< [SI] signs as in Reading; empty: no reading
  std::vector<Reading> odd;                 ///< in these it stands far out from the other shots

  const std::optional<double>& at(Reading reading) const { return values[reading]; }  ///< [SI] one reading; empty: none
  std::optional<double>& at(Reading reading) { return values[reading]; }              ///< likewise
};

/// A row that cannot be a shot.
struct SetAside {
  std::size_t line;                ///< of the file, from 1
  std::vector<std::string> cells;  ///< the row as written
  std::string reason;              ///< why
};

/// What a reader should know of a list.
struct Note {
  std::size_t line;     ///< 0: the list as a whole
  std::string message;  ///< a sentence
};

/// A list as it was read.
struct ShotList {
  std::vector<Shot> shots;           ///< in the order of the file
  std::vector<SetAside> set_aside;   ///< likewise
  std::vector<FoundColumn> columns;  ///< what was read as what, in which unit
  std::vector<std::string> unused;   ///< heads nothing was made of
  std::vector<Note> notes;           ///< what looks odd
};

/// The user's own word on how a list is to be read.
struct ReadOptions {
  std::vector<ColumnOverride> overrides{};  ///< columns named by the user
  std::optional<char> decimal{};            ///< '.' or ','; empty: found from the cells
  std::optional<std::string> club{};        ///< keep this club's shots only
  bool several_clubs = false;               ///< shots of several clubs are what is wanted: no note of them
};

/// Odd shots are those further than this many robust standard deviations from the middle. Wider than the published 3.5:
/// a shot has some ten readings, each with its own chance to be marked. Honest shots of ten readings marked: 4.5 % in a
/// list of 10, 0.8 % of 20, 0.1 % of 50 (our simulation).
inline constexpr double kOutlierShotLimit = 5.0;  ///< [-]

/// Throws InputError when the text is no table (the line is named), when no column is recognised, when one has no unit
/// and none can be assumed, when two hold the same reading, or when the decimal sign cannot be told. A list from which
/// every shot was set aside is returned as such.
ShotList read_shots(std::string_view text, const ColumnMap& map, const ReadOptions& options = {});

}  // namespace loftwright
