#include "files/json_values.hpp"
#include "loftwright/report/json.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

OrderedJson findings_of(const Findings& findings) {
  OrderedJson list = OrderedJson::array();
  for (const Finding& f : findings) {
    list.push_back({{"severity", f.severity == Severity::error ? "error" : "warning"},
                    {"place", f.place},
                    {"message", f.message}});
  }
  return list;
}

std::string check_json(std::string_view file, const Findings& findings) {
  int errors = 0;
  for (const Finding& f : findings) errors += f.severity == Severity::error;
  return text_of({{"format", "loftwright-check/1"},
                  {"file", file},
                  {"usable", errors == 0},
                  {"errors", errors},
                  {"warnings", static_cast<int>(findings.size()) - errors},
                  {"findings", findings_of(findings)}});
}

}  // namespace loftwright
