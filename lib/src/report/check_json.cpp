#include "files/json_values.hpp"
#include "loftwright/report/json.hpp"

namespace loftwright {

std::string check_json(std::string_view file, const Findings& findings) {
  OrderedJson list = OrderedJson::array();
  int errors = 0;
  for (const Finding& f : findings) {
    const bool error = f.severity == Severity::error;
    errors += error;
    list.push_back({{"severity", error ? "error" : "warning"}, {"place", f.place}, {"message", f.message}});
  }
  return text_of({{"format", "loftwright-check/1"},
                  {"file", file},
                  {"usable", errors == 0},
                  {"errors", errors},
                  {"warnings", static_cast<int>(findings.size()) - errors},
                  {"findings", list}});
}

}  // namespace loftwright
