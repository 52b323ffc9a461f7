// What commands about shot lists share: reading one as the options say.
#pragma once

#include <string>

#include "commands.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright::cli {

// As --map, --columns, --club and --decimal say. "-" is standard input. Throws UsageError or InputError.
enum class Clubs { one, several };  // whether several clubs in a list are worth a note
ShotList list_from(const Session& session, const std::string& file, Clubs clubs = Clubs::one);

// --learn, before and after the list was read: whether the file may be written, and writing it. Throw InputError or
// Error.
void check_learn(const Session& session);
void learn_columns(const Session& session);

// What to call it: "-" is "standard input".
std::string name_of(const std::string& file);

// As --odd says.
Outliers odd_from(const Values& values);

// As --goal says, else `otherwise`.
Goal goal_from(const Values& values, Goal otherwise);

// A pupil of whom only hand, head, ball, turf and weather are known.
Pupil player_from(const Values& values, Pupil pupil = {});

// "lesson.csv: 7 shots counted, 1 set aside, 2 outliers left out".
std::string list_words(const std::string& file, const ShotList& list, Outliers odd);

}  // namespace loftwright::cli
