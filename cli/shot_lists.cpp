#include "shot_lists.hpp"

#include <fmt/format.h>

#include "core/disk.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "report/shot_words.hpp"

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

std::vector<ColumnOverride> overrides_from(const Values& values) {
  std::vector<ColumnOverride> out;
  for (const std::string& typed : values.texts("map")) out.push_back(override_from(typed));
  return out;
}

ColumnMap words_from(const Values& values) {
  return values.given("columns") ? load_columns(values.text("columns")) : built_in_columns();
}

}  // namespace

ShotList list_from(const Session& session, const std::string& file, Clubs clubs) {
  const Values& values = session.values;
  ReadOptions options;
  options.overrides = overrides_from(values);
  if (values.given("club")) options.club = values.text("club");
  options.several_clubs = clubs == Clubs::several;
  if (values.given("decimal")) options.decimal = values.text("decimal") == "point" ? '.' : ',';
  const ColumnMap words = words_from(values);
  if (file != "-") return load_shots(file, words, options);
  return shots_from(from_pipe(session, "a shot list"), name_of(file), words, options);
}

void check_learn(const Session& session) {
  const Values& values = session.values;
  if (!values.given("learn")) return;
  const std::string file = values.text("learn");
  const bool own = values.given("columns") && is_same_file(file, values.text("columns"));
  if (!own && seems_there(file)) {  // what cannot be told is said by check_may_write
    throw InputError(fmt::format("--learn: {} is there already; only the file of --columns is written over", file));
  }
  try {
    check_may_write(file);
  } catch (const InputError& error) {
    throw InputError(fmt::format("--learn: {}", error.what()));
  }
}

void learn_columns(const Session& session) {
  const Values& values = session.values;
  if (!values.given("learn")) return;
  const std::string file = values.text("learn");
  write_text(file, columns_text(learnt(words_from(values), overrides_from(values))), file);
  session.kept = fmt::format("{} is written", file);
}

std::string name_of(const std::string& file) { return file == "-" ? "standard input" : file; }

Outliers odd_from(const Values& values) { return values.text("odd") == "keep" ? Outliers::keep : Outliers::leave_out; }

Goal goal_from(const Values& values, Goal otherwise) {
  if (!values.given("goal")) return otherwise;
  return values.text("goal") == key_of(Goal::carry) ? Goal::carry : Goal::total;
}

Pupil player_from(const Values& values, Pupil pupil) {
  const Course course = course_from(values, {pupil.ball, pupil.conditions});
  pupil.ball = course.ball;
  pupil.conditions = course.conditions;
  if (values.given("handed")) pupil.handed = handed_from(values);
  if (values.given("head")) {
    pupil.head = values.text("head");
    pupil.head_numbers.reset();
  }
  return pupil;
}

std::string list_words(const std::string& file, const ShotList& list, Outliers odd) {
  return printable(fmt::format("{}: {}", name_of(file), shots_words(list, odd)));
}

}  // namespace loftwright::cli
