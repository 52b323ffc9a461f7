#include "shot_lists.hpp"

#include <fmt/format.h>

#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/io/columns_file.hpp"
#include "loftwright/io/shot_words.hpp"
#include "loftwright/io/shots_file.hpp"

namespace loftwright::cli {

namespace {

ColumnOverride override_from(const std::string& typed) {
  const std::size_t equals = typed.find('=');
  if (equals == 0 || equals == std::string::npos || equals + 1 == typed.size()) {
    throw UsageError(fmt::format("--map: '{}' is not KEY=HEAD, as in attack=\"Angle (deg)\"", typed));
  }
  try {
    return column_override(typed.substr(0, equals), typed.substr(equals + 1));
  } catch (const InputError& error) {
    throw UsageError(fmt::format("--map: {}", error.what()));
  }
}

}  // namespace

ShotList list_from(const Session& session, const std::string& file) {
  const Values& values = session.values;
  ReadOptions options;
  for (const std::string& typed : values.texts("map")) options.overrides.push_back(override_from(typed));
  if (values.given("club")) options.club = values.text("club");
  if (values.given("decimal")) options.decimal = values.text("decimal") == "point" ? '.' : ',';
  const ColumnMap words = values.given("columns") ? load_columns(values.text("columns")) : built_in_columns();
  if (file != "-") return load_shots(file, words, options);
  return shots_from(from_pipe(session, "a shot list"), name_of(file), words, options);
}

std::string name_of(const std::string& file) { return file == "-" ? "standard input" : file; }

OddShots odd_from(const Values& values) { return values.text("odd") == "keep" ? OddShots::keep : OddShots::leave_out; }

Goal goal_from(const Values& values, Goal otherwise) {
  if (!values.given("goal")) return otherwise;
  return values.text("goal") == key_of(Goal::carry) ? Goal::carry : Goal::total;
}

Pupil player_from(const Values& values, Pupil pupil) {
  pupil = circumstances_from(values, std::move(pupil));
  if (values.given("handed")) pupil.handed = handed_from(values);
  if (values.given("head")) {
    pupil.head = values.text("head");
    pupil.head_numbers.reset();
  }
  return pupil;
}

std::string list_words(const std::string& file, const ShotList& list, OddShots odd) {
  return printable(fmt::format("{}: {}", name_of(file), shots_words(list, odd)));
}

}  // namespace loftwright::cli
