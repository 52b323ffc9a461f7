#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "files/book_json.hpp"
#include "files/csv_cell.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/book_file.hpp"

namespace loftwright {

namespace {

struct Column {
  std::string_view head;
  const char* place;  // in a session's JSON
};
constexpr std::array kColumns{
    Column{"session", "/session"},
    Column{"date", "/date"},
    Column{"carry_m", "/reference/carry_m"},
    Column{"total_m", "/reference/total_m"},
    Column{"program", "/reference/program"},
    Column{"loft_deg", "/club/loft_deg"},
    Column{"head", "/club/head"},
    Column{"club_speed_mps", "/delivery/club_speed_mps"},
    Column{"attack_deg", "/delivery/attack_deg"},
    Column{"dynamic_loft_deg", "/delivery/dynamic_loft_deg"},
    Column{"path_deg", "/delivery/path_deg"},
    Column{"face_deg", "/delivery/face_deg"},
    Column{"toe_mm", "/delivery/toe_mm"},
    Column{"high_mm", "/delivery/high_mm"},
    Column{"delivery_inferred", "/delivery_inferred"},
    Column{"shots", "/shots/counted"},
    Column{"shots_file", "/shots/file"},
    Column{"ball", "/course/ball"},
    Column{"turf", "/course/turf"},
    Column{"altitude_m", "/course/altitude_m"},
    Column{"pressure_pa", "/course/pressure_pa"},
    Column{"temperature_c", "/course/temperature_c"},
    Column{"humidity_pct", "/course/humidity_pct"},
    Column{"wind_mps", "/course/wind_mps"},
    Column{"wind_from_deg", "/course/wind_from_deg"},
    Column{"wind_height_m", "/course/wind_height_m"},
    Column{"wind_profile", "/course/wind_profile"},
    Column{"notes", "/notes"},
    Column{"setting", "/club/setting/name"},
    Column{"head_loft_deg", "/club/setting/head_loft_deg"},
};

// What a unit of the file is to who counts in yards: by the ends of heads.
constexpr std::pair<std::string_view, std::string_view> kInYards[] = {
    {"altitude_m", "ft"}, {"wind_height_m", "ft"}, {"_mps", "mph"}, {"_m", "yd"}, {"_c", "F"}};

// The two units of such a column; none where both systems have one.
std::optional<std::pair<const Unit*, const Unit*>> converted(std::string_view head, UnitSystem units) {
  const auto at = std::find_if(std::begin(kInYards), std::end(kInYards),
                               [&](const auto& pair) { return head.ends_with(pair.first); });
  if (units == UnitSystem::metres || at == std::end(kInYards)) return std::nullopt;
  return std::pair{find_suffix(head.substr(head.rfind('_') + 1)), &unit(at->second)};
}

std::string head_in(std::string_view head, UnitSystem units) {
  const auto change = converted(head, units);
  return change ? fmt::format("{}_{}", head.substr(0, head.rfind('_')), change->second->suffix) : std::string(head);
}

OrderedJson value_in(const OrderedJson& value, std::string_view head, UnitSystem units) {
  const auto change = converted(head, units);
  return change && value.is_number() ? in(change->second->symbol, change->first->to_si(value.get<double>())) : value;
}

}  // namespace

std::string book_csv(const Book& book, UnitSystem units) {
  std::string out;
  for (const Column& c : kColumns) (out += &c == kColumns.data() ? "" : ",") += head_in(c.head, units);
  out += "\r\n";
  for (const BookedSession& s : book.sessions) {
    const OrderedJson session = session_json(s);
    for (const Column& c : kColumns) {
      const OrderedJson::json_pointer place(c.place);
      // A part that is null has no members.
      const bool has = session.contains(place);
      (out += &c == kColumns.data() ? "" : ",") += has ? csv_cell(value_in(session.at(place), c.head, units)) : "";
    }
    out += "\r\n";
  }
  return out;
}

}  // namespace loftwright
