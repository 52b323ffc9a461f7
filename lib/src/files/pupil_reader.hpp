// One reading of one pupil file, section by section; pupil_file.cpp calls them in the order in which they need each
// other.
#pragma once

#include <fmt/format.h>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/text.hpp"
#include "files/json_reader.hpp"
#include "files/model_file.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/pupil/complete.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

inline constexpr std::string_view kPupilFormat = "loftwright-pupil/1";
inline constexpr int kMostMeasuredShots = static_cast<int>(about(Quantity::measured_shots).allowed.high);

// read_pupil from a document already parsed.
std::optional<Pupil> pupil_from(const Json& document, const std::filesystem::path& folder, const Catalogue& catalogue,
                                Findings& findings);

// What the sections need of each other. Empty: not given, or not usable, which was said where it stands.
struct PupilReading {
  const std::filesystem::path& folder;
  const Catalogue& catalogue;
  Pupil pupil{};
  std::optional<TypedQuantity> club_loft{};   // as it is played
  std::optional<std::string> club_setting{};  // its place in the file
  std::optional<Head> head{};
  std::optional<Ball> ball{};
  std::optional<DeliveryBlock> block{};  // of the list of shots that the file names
  bool delivery_known = false;           // club speed, attack and dynamic loft, measured or worked out

  Given given{};             // what the file says; complete() tells what was taken in place of the rest, and ...
  std::vector<Told> told{};  // ... these, each in its place
  std::optional<TypedQuantity> speed_per_attack{};

  template <class... Args>
  void tell(Datum before, fmt::format_string<Args...> sentence, Args&&... args) {
    told.push_back({before, fmt::format(sentence, std::forward<Args>(args)...)});
  }
};

// The numbers of a section that have a row of their own. Those with a unit, as typed.
std::vector<std::pair<Datum, TypedQuantity>> read_numbers(ObjectReader& reader, std::string_view section,
                                                          PupilReading& r);

void read_clubs(ObjectReader& top, PupilReading& r);  // club, lofts_on_offer, sleeve
void read_swing(ObjectReader& top,
                PupilReading& r);                     // delivery to reach; needs head, ball and loft
void read_tuned(ObjectReader& top, PupilReading& r);  // needs head and ball

// "correlations" between quantities of these keys, by their numbers.
void read_correlations(ObjectReader& reader, const std::vector<std::string>& keys,
                       std::vector<Spread::Correlation>& out);

void read_shots(ObjectReader& top, PupilReading& r);  // shots; needs head and ball

// What went wrong in a file that another one names, as one line of that other one's findings.
std::string on_one_line(const InputError& error);

// A model that the file names by id or path: `load` must find it.
template <class Load>
void read_named(ObjectReader& reader, std::string_view key, std::string& into, const PupilReading& r,
                const Load& load) {
  const std::optional<std::string> name = reader.text(key, Need::optional);
  if (name) into = resolved(*name, r.folder);
  try {
    load(into);
  } catch (const InputError& e) {
    reader.error(below(reader.place(), key), on_one_line(e));
  }
}

}  // namespace loftwright
