#include "files/json_values.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/lessons_words.hpp"

namespace loftwright {

namespace {

OrderedJson errors_of(const Findings& findings) {
  OrderedJson out = OrderedJson::array();
  for (const Finding& f : findings) {
    if (f.severity == Severity::error) out.push_back({{"place", f.place}, {"message", f.message}});
  }
  return out;
}

}  // namespace

std::string lessons_json(const Lessons& lessons, const AcademyFolder& folder, UnitSystem units) {
  OrderedJson out{{"format", "loftwright-lessons/1"}};
  add_academy(out, lessons.academy);
  OrderedJson books = OrderedJson::array(), failed = OrderedJson::array();
  for (const PupilLessons& p : lessons.pupils) {
    books.push_back({{"file", p.file},
                     {"pupil", p.pupil},
                     {"sessions", p.sessions},
                     {"inferred", p.inferred},
                     {"pairs", p.pairs},
                     {"attack_moved_deg", in("deg", p.attack_moved)},
                     {"promises", p.promises},
                     {"outcomes", p.outcomes}});
  }
  for (const AcademyFolder::Failed& f : folder.failed)
    failed.push_back({{"file", f.file}, {"findings", errors_of(f.findings)}});
  const std::string calibration = calibration_sentence(lessons.academy, units);
  out["books"] = books;
  out["left_out"] = folder.left_out;
  out["failed"] = failed;
  out["sentence"] = lessons_sentence(lessons, units);
  out["calibration_sentence"] = calibration.empty() ? OrderedJson(nullptr) : OrderedJson(calibration);
  out["notes"] = lessons_notes(lessons);
  out["cautions"] = cautions(units);
  return text_of(out);
}

}  // namespace loftwright
