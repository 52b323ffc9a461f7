/// @file
/// The models of ball, head, turf and air resistance that ship with the program, and a user's own beside them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shot.hpp"

namespace loftwright {

/// The model of air that a second opinion is asked of.
inline constexpr std::string_view kSecondAir = "ballistic-range";

/// What a model is of.
enum class ModelKind { ball, head, turf, aero };

/// How one model is described to people.
struct ModelInfo {
  std::string id;      ///< as files and options name it
  std::string title;   ///< as people do
  std::string source;  ///< where its numbers are from
  std::string status;  ///< "published", "rules", "memory" or "estimate"
  std::string note;    ///< what else to know of it
};

/// A model is named by id, or by the path of a file of the same format (it ends in ".json"). Ids are looked for in the
/// overlay folder first (data/'s own layout: balls/ heads/ turf/ aero/), then among those built in. Every file is
/// validated when it is loaded. Loading throws InputError (unknown id: names the nearest and lists all) or FileError (a
/// file's mistakes).
class Catalogue {
 public:
  Catalogue() = default;
  explicit Catalogue(std::filesystem::path overlay);  ///< throws InputError when it is not a folder

  /// A ball and what it flies by.
  struct BallWithAero {
    Ball ball;       ///< the body
    AeroModel aero;  ///< drag and lift
  };
  BallWithAero ball(std::string_view id) const;  ///< with the aerodynamic model its file names
  Head head(std::string_view id) const;          ///< by id or path
  Turf turf(std::string_view id) const;          ///< by id or path
  AeroModel aero(std::string_view id) const;     ///< by id or path

  std::vector<ModelInfo> list(ModelKind kind) const;          ///< by id, overlay and built in
  ModelInfo info(ModelKind kind, std::string_view id) const;  ///< of one model

  /// A built-in file as text ("pupils/demo.json"). Throws std::logic_error when there is none.
  static std::string_view built_in(std::string_view name);

 private:
  std::optional<std::filesystem::path> overlay_;
};

/// Everything outside the player, as the pupil's file asks for it.
Setting setting_for(const Pupil& pupil, const Catalogue& catalogue);

/// The same for nobody in particular.
Setting setting_for(const Course& course, const std::string& head, const Catalogue& catalogue);

/// The conditions of every ReferenceDrive of a book, with a session's head. Throws InputError for an unknown one.
Setting reference_setting(const std::string& head, const Catalogue& catalogue);

}  // namespace loftwright
