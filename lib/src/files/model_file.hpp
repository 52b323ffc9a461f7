// The formats of data/: one model of a ball, a head, turf or air resistance a file (data/README.md, data/schema/).
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "files/json_reader.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

template <class Model>
struct ModelFile {
  ModelInfo info;
  Model model;
};

struct BallModel {
  Ball ball;
  std::string aero;  // id or path of its aerodynamic model, as the file names it
};

// From a parsed file. Empty when there is an error, which `findings` tells.
std::optional<ModelFile<BallModel>> read_ball(const Json& document, Findings& findings);
std::optional<ModelFile<Head>> read_head(const Json& document, Findings& findings);
std::optional<ModelFile<Turf>> read_turf(const Json& document, Findings& findings);
std::optional<ModelFile<AeroModel>> read_aero(const Json& document, Findings& findings);

// The numbers of a head. Optional: `head` keeps what is not given; returns the keys that were not.
std::vector<std::string> read_head_numbers(ObjectReader& reader, Need need, Head& head);

// A kind's folder below data/, its format, and its name in messages.
struct KindOfModel {
  ModelKind kind;
  std::string_view folder;
  std::string_view format;
  std::string_view name;
};
std::span<const KindOfModel> kinds_of_model();

// A model is named by id (small letters, digits, hyphens) or by path (ends in ".json"), relative to `folder`.
bool is_path(std::string_view name);
bool is_id(std::string_view name);
std::string resolved(std::string_view name, const std::filesystem::path& folder);

}  // namespace loftwright
