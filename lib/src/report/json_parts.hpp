// Parts that several answers share.
#pragma once

#include <vector>

#include "files/json_values.hpp"
#include "loftwright/advise/ladder.hpp"
#include "loftwright/files/pupil_folder.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shares.hpp"
#include "loftwright/shots/shot_list.hpp"
#include "loftwright/stats/detail/summary.hpp"
#include "report/clinic_tables.hpp"

namespace loftwright {

OrderedJson launch_of(const Launch& launch);
OrderedJson flight_of(const Drive& drive);
OrderedJson delivery_of(const Delivery& delivery);

// "models" and "conditions": what the numbers hold for.
void add_circumstances(OrderedJson& out, const Setting& setting);

// The loft on the club; null where no file says.
OrderedJson club_loft_of(const std::optional<double>& loft);

// An object with what `of` makes of each factor's number; null for the club's where its loft is not known.
template <class Of>
OrderedJson by_factor(bool club_known, const Of& of) {
  OrderedJson out;
  for (const Factor factor : kAllOf<Factor>) {
    out[std::string(key_of(factor))] = factor == Factor::club && !club_known ? OrderedJson(nullptr) : of(factor);
  }
  return out;
}

OrderedJson findings_of(const Findings& findings);  // severity, place and message of each

// What pupils of an academy reached of promises; and of a whole academy its file and that, null without one.
OrderedJson reached_share_json(const ReachedShare& reached);
OrderedJson academy_of(const std::optional<NamedAcademy>& academy);

// Of the files of a folder, how many of which have no answer and why ("failed"), and what is no pupil's ("left_out").
template <class Result>
void add_failed(OrderedJson& out, const PupilFolder& folder, const std::vector<Result>& results) {
  OrderedJson failed = OrderedJson::array(), left_out = OrderedJson::array();
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (!is_answered(results[i]))
      failed.push_back({{"file", folder.files[i]}, {"findings", findings_of(results[i].findings)}});
  }
  for (const LeftOutFile& f : folder.left_out) left_out.push_back({{"file", f.file}, {"format", f.format}});
  out["failed"] = failed;
  out["left_out"] = left_out;
}
// What to fit, and that in words; null where nothing is turned or bought.
OrderedJson fit_of(const std::optional<ClubFit>& fit, const std::string& sentence);
// The steps of a lesson ladder.
OrderedJson ladder_of(const Ladder& ladder);

OrderedJson keys_of(const std::vector<Reading>& readings);
OrderedJson set_aside_of(const ShotList& list);
OrderedJson notes_of(const std::vector<Note>& notes);  // with the line, where there is one

// A reading with its unit, count, mean, sd and standard error (null for fewer than two).
OrderedJson summary_of(Reading reading, const Summary& summary);

}  // namespace loftwright
