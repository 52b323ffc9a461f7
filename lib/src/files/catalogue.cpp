#include "loftwright/files/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>
#include <stdexcept>

#include "core/disk.hpp"
#include "core/nearest.hpp"
#include "files/embedded.hpp"
#include "files/model_file.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

using Overlay = std::optional<fs::path>;

std::span<const EmbeddedFile> embedded() { return {kEmbeddedFiles, kEmbeddedFilesCount}; }

const EmbeddedFile* find_embedded(std::string_view name) {
  const auto files = embedded();
  const auto at = std::find_if(files.begin(), files.end(), [&](const EmbeddedFile& f) { return f.name == name; });
  return at == files.end() ? nullptr : &*at;
}

const KindOfModel& about(ModelKind kind) {
  const auto kinds = kinds_of_model();
  return *std::find_if(kinds.begin(), kinds.end(), [&](const KindOfModel& k) { return k.kind == kind; });
}

std::vector<std::string> ids_of(const KindOfModel& kind, const Overlay& overlay) {
  std::set<std::string> ids;
  for (const EmbeddedFile& file : embedded()) {
    const fs::path path(file.name);
    if (path.parent_path() == kind.folder) ids.insert(path.stem().string());
  }
  if (overlay && is_there(*overlay / kind.folder)) {  // a folder the overlay does not have holds no models
    for (const std::string& name : list_folder(*overlay / kind.folder)) {
      const std::string stem = fs::path(name).stem().string();
      if (is_path(name) && is_id(stem)) ids.insert(stem);
    }
  }
  return {ids.begin(), ids.end()};
}

struct Located {
  std::string name;  // for messages
  std::string text;
  fs::path folder;  // where the files it names are looked for
};

Located locate(const KindOfModel& kind, std::string_view id, const Overlay& overlay) {
  if (is_path(id)) {
    const fs::path path(id);
    return {path.string(), read_text(path), path.parent_path()};
  }
  const std::string name = fmt::format("{}/{}.json", kind.folder, id);
  if (is_id(id)) {
    if (overlay && is_there(*overlay / name)) {
      return {(*overlay / name).string(), read_text(*overlay / name), (*overlay / name).parent_path()};
    }
    if (const EmbeddedFile* file = find_embedded(name)) return {"built-in " + name, std::string(file->text), {}};
  }
  const std::vector<std::string> ids = ids_of(kind, overlay);
  throw InputError(
      fmt::format("there is no {} {}; the nearest is \"{}\"; there are: {}; or name a file that ends in .json",
                  kind.name, in_quotes(id), nearest(id, ids), fmt::join(ids, ", ")));
}

// A model, and the file that its own references start from.
template <class Model>
struct Loaded {
  ModelFile<Model> file;
  std::string name;
  fs::path folder;
};

template <class Model>
Loaded<Model> load(ModelKind kind, std::string_view id, const Overlay& overlay,
                   std::optional<ModelFile<Model>> (*read)(const Json&, Findings&)) {
  const Located located = locate(about(kind), id, overlay);
  Findings findings;
  const std::optional<Json> document = parse_json(located.text, findings);
  std::optional<ModelFile<Model>> file;
  if (document) file = read(*document, findings);
  if (file && !is_path(id) && file->info.id != id) {
    findings.push_back(
        {Severity::error, "/id", fmt::format("is {}, but the file's name says \"{}\"", in_quotes(file->info.id), id)});
  }
  if (has_errors(findings)) throw FileError(located.name, findings);
  return {std::move(*file), located.name, located.folder};
}

}  // namespace

Catalogue::Catalogue(fs::path overlay) : overlay_(std::move(overlay)) {
  if (!is_there(*overlay_) || kind_of(*overlay_) != FileKind::folder) {
    throw InputError(fmt::format("{} is not a folder of data files", overlay_->string()));
  }
  list_folder(*overlay_);  // else an unreadable one would pass for an empty one
}

Catalogue::BallWithAero Catalogue::ball(std::string_view id) const {
  const auto [file, name, folder] = load(ModelKind::ball, id, overlay_, read_ball);
  try {
    return {file.model.ball, aero(resolved(file.model.aero, folder))};
  } catch (const InputError& e) {
    throw FileError(name, {{Severity::error, "/aero", e.what()}});
  }
}

Head Catalogue::head(std::string_view id) const { return load(ModelKind::head, id, overlay_, read_head).file.model; }

Turf Catalogue::turf(std::string_view id) const { return load(ModelKind::turf, id, overlay_, read_turf).file.model; }

AeroModel Catalogue::aero(std::string_view id) const {
  return load(ModelKind::aero, id, overlay_, read_aero).file.model;
}

std::vector<ModelInfo> Catalogue::list(ModelKind kind) const {
  std::vector<ModelInfo> all;
  for (const std::string& id : ids_of(about(kind), overlay_)) all.push_back(info(kind, id));
  return all;
}

ModelInfo Catalogue::info(ModelKind kind, std::string_view id) const {
  switch (kind) {
    case ModelKind::ball: return load(kind, id, overlay_, read_ball).file.info;
    case ModelKind::head: return load(kind, id, overlay_, read_head).file.info;
    case ModelKind::turf: return load(kind, id, overlay_, read_turf).file.info;
    case ModelKind::aero: return load(kind, id, overlay_, read_aero).file.info;
  }
  throw std::logic_error("a kind of model without a reader");
}

std::string_view Catalogue::built_in(std::string_view name) {
  const EmbeddedFile* file = find_embedded(name);
  if (!file) throw std::logic_error(fmt::format("no built-in file '{}'", name));
  return file->text;
}

namespace {

Setting setting_of(const Head& head, std::string head_id, const Course& course, const Catalogue& catalogue) {
  const auto [ball, aero] = catalogue.ball(course.ball);
  const Conditions& c = course.conditions;
  return {.head = head,
          .ball = ball,
          .aero = aero,
          .turf = catalogue.turf(c.turf),
          .air = air_from(c),
          .wind = c.wind,
          .course = course,
          .head_id = std::move(head_id)};
}

}  // namespace

Setting setting_for(const Course& course, const std::string& head, const Catalogue& catalogue) {
  return setting_of(catalogue.head(head), head, course, catalogue);
}

Setting setting_for(const Pupil& pupil, const Catalogue& catalogue) {
  const Course course{pupil.ball, pupil.conditions};
  Setting setting = pupil.head_numbers ? setting_of(*pupil.head_numbers, "", course, catalogue)
                                       : setting_for(course, pupil.head, catalogue);
  if (pupil.tuned) {
    const ByTunable<double>& tuned = pupil.tuned->value;
    setting.head.restitution = tuned[Tunable::restitution];
    setting.head.tangential_restitution = tuned[Tunable::tangential_restitution];
    setting.drag_scale = tuned[Tunable::drag_scale];
    setting.lift_scale = tuned[Tunable::lift_scale];
    setting.tuned = pupil.tuned->turf.empty() ? Tuned::head_and_ball
                    : has_tuned_turf(pupil)   ? Tuned::turf_too
                                              : Tuned::another_turf;
    if (has_tuned_turf(pupil)) {
      const TurfErrorOf<double> found{.tilt = (tuned[Tunable::tilt_scale] - 1.0) * setting.turf.tilt,
                                      .restitution = tuned[Tunable::bounce_scale],
                                      .rolling = tuned[Tunable::rolling_scale],
                                      .tilt_speed = tuned[Tunable::tilt_speed_scale]};
      setting.turf = turf_under(setting.turf, found);
    }
  }
  return setting;
}

Setting reference_setting(const std::string& head, const Catalogue& catalogue) {
  return setting_for(Course{}, head, catalogue);
}

}  // namespace loftwright
