#include "written_tables.hpp"

#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <stdexcept>

#include "loftwright/aero/aero.hpp"
#include "loftwright/equip/ball.hpp"
#include "loftwright/equip/head.hpp"
#include "loftwright/ground/run.hpp"
#include "loftwright/pupil/complete.hpp"
#include "loftwright/shots/reading.hpp"

namespace loftwright::cli {

namespace {

using Schema = nlohmann::ordered_json;
using Pointer = Schema::json_pointer;

std::string contents(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream text;
  if (!(text << in.rdbuf())) throw std::runtime_error(fmt::format("{} cannot be read", path.string()));
  return text.str();
}

// One number as a schema has it.
struct Entry {
  std::string_view key;
  std::optional<Dimension> dimension;  // none: a bare number
  Range range;
  std::string_view meaning;
  std::string_view said_in = "";  // the unit to say the range in; empty: that of the range
};

Entry entry_of(Quantity quantity, const Range& range) {
  const QuantityInfo& q = about(quantity);
  return {q.key, is_bare(q) ? std::nullopt : std::optional(q.dimension), range, q.meaning,
          range.unit == "Pa" ? q.typed : range.unit};  // pressures as people give them
}

template <class S>
Entry entry_of(const ModelNumber<S>& n) {
  return {n.key, n.dimension, n.allowed, n.title, n.allowed.unit};
}

// "-20 to 20 deg".
std::string words_of(const Entry& e) {
  const std::string_view symbol = e.said_in;
  const auto said = [&](double si) {
    std::string words = fmt::format("{:.6g}", symbol.empty() ? si : unit(symbol).from_si(si));
    if (const std::size_t at = words.find("e-0"); at != std::string::npos) words.erase(at + 2, 1);  // 5e-5, not 5e-05
    return words;
  };
  return fmt::format("{} to {}{}{}", said(low_of(e.range)), said(high_of(e.range)), symbol.empty() ? "" : " ", symbol);
}

std::string pattern_of(const Entry& e) {
  std::string suffixes;
  for (const Unit& u : units()) {
    if (u.dimension == e.dimension) suffixes += fmt::format("{}{}", suffixes.empty() ? "" : "|", u.suffix);
  }
  return fmt::format("^{}_({})$", e.key, suffixes);
}

std::string key_of(const Entry& e) { return e.dimension ? pattern_of(e) : std::string(e.key); }

void bound(Schema& number, const Range& range) {
  const auto whole_if = [](double x) { return x == std::floor(x) ? Schema(static_cast<int>(x)) : Schema(x); };
  number["minimum"] = whole_if(range.low);
  number["maximum"] = whole_if(range.high);
}

// One key of an object of the schema: the range in its description, or a key of its own described as the table does.
// `like`: what a key that is not there yet is made like.
void put(Schema& schema, const std::string& object, const Entry& e, const std::string& like = "") {
  Schema& keys = schema[Pointer(object + (e.dimension ? "/patternProperties" : "/properties"))];
  const std::string key = key_of(e), words = words_of(e);
  if (!keys.contains(key)) {
    keys[key] = like.empty() ? Schema{{"type", "number"}} : keys.at(like);
    keys[key]["description"] = e.dimension ? fmt::format("{}; {}", e.meaning, words) : std::string(e.meaning);
  }
  if (!e.dimension) return bound(keys[key], e.range);
  static const std::regex kRange(
      R"(-?[0-9][0-9. ]*(e-?[0-9]+)? to -?[0-9][0-9. ]*(e-?[0-9]+)? (m/s|mph|deg|rpm|mm|m|C|%|hPa|kg m2|kg))");
  const std::string said = keys[key]["description"].get<std::string>();
  if (!std::regex_search(said, kRange)) throw std::runtime_error(fmt::format("{}/{} tells no range", object, key));
  keys[key]["description"] = std::regex_replace(said, kRange, words, std::regex_constants::format_first_only);
}

void put(Schema& schema, const std::string& object, std::initializer_list<Quantity> quantities) {
  for (const Quantity q : quantities) put(schema, object, entry_of(q, about(q).allowed));
}

// What a file must give: a bare number, or a quantity in exactly one of its units.
void require(Schema& schema, const Entry& e) {
  if (!e.dimension) {
    Schema& keys = schema["required"];
    if (std::find(keys.begin(), keys.end(), e.key) == keys.end()) keys.push_back(e.key);
    return;
  }
  Schema one_of = Schema::array();
  for (const Unit& u : units()) {
    if (u.dimension == *e.dimension) one_of.push_back({{"required", {fmt::format("{}_{}", e.key, u.suffix)}}});
  }
  Schema& all = schema["allOf"];
  const Schema rule{{"oneOf", one_of}};
  if (std::find(all.begin(), all.end(), rule) == all.end()) all.push_back(rule);
}

template <class S, std::size_t N>
void put_model(Schema& schema, const std::string& object, const std::array<ModelNumber<S>, N>& numbers) {
  for (const ModelNumber<S>& n : numbers) {
    put(schema, object, entry_of(n));
    if (n.needed) require(schema, entry_of(n));
  }
}

void put_aero(Schema& schema) {
  const auto at = [&](const char* place) -> Schema& { return schema.at(Pointer(place)); };
  for (const auto& n : kCurveNumbers) {  // drag and lift are numbers of a curve and cells of a table
    const bool both = n.key == "drag" || n.key == "lift";
    bound(at(both ? "/else/properties" : "/properties")[std::string(n.key)], n.allowed);
  }
  for (const auto& n : kCrisisNumbers) bound(at("/properties/crisis/properties")[std::string(n.key)], n.allowed);
  bound(at("/properties/lift_exponent"), kLiftExponent);
  for (const char* place : {"/properties", "/properties/valid/properties"}) {
    bound(at(place)["reynolds"]["items"], kReynolds);
    bound(at(place)["spin_ratio"]["items"], kSpinRatios);
  }
  bound(at("/then/properties/drag/items/items"), kTableDrag);
  bound(at("/then/properties/lift/items/items"), kTableLift);
}

void put_pupil(Schema& schema) {
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    put(schema, "/properties/delivery", {part.quantity});
    put(schema, "/properties/spread", entry_of(part.quantity, part.sd));
    if (part.change.known())
      put(schema, "/properties/reach/properties/options/items", entry_of(part.quantity, part.change));
  }
  const std::string like = key_of(entry_of(Quantity::landing, {}));
  for (const LimitInfo& limit : kLimits) {
    put(schema, "/properties/limits", entry_of(limit.quantity, about(limit.quantity).allowed), like);
  }
  for (const NumberDatum& d : kNumberData) {
    put(schema, d.section.empty() ? "" : fmt::format("/properties/{}", d.section), {d.quantity});
  }
  put(schema, "", {Quantity::worthwhile, Quantity::measured_shots});
  put(schema, "/properties/club", {Quantity::loft});
  put(schema, "/properties/launch",
      {Quantity::ball_speed, Quantity::launch, Quantity::spin, Quantity::azimuth, Quantity::tilt});
  put(schema, "/properties/sleeve", {Quantity::face_per_loft});
  put(schema, "/properties/reach", {Quantity::speed_per_attack, Quantity::effort_per_attack});
  put(schema, "/properties/reach/properties/options/items", {Quantity::effort});
  put(schema, "/properties/conditions", {Quantity::pressure, Quantity::wind_from});
}

// Wherever most of what may be limited are words of the schema, all of it is.
void fill_limits(Schema& at, const Schema& keys) {
  if (at.is_object() && at.contains("enum") && at["enum"].is_array()) {
    Schema& words = at["enum"];
    const auto known = [&](const Schema& word) { return std::find(keys.begin(), keys.end(), word) != keys.end(); };
    const auto count = std::count_if(words.begin(), words.end(), known);
    if (count > 1 && count + 2 >= static_cast<long>(words.size())) {
      Schema all = keys;
      if (std::find(words.begin(), words.end(), Schema(nullptr)) != words.end()) all.push_back(nullptr);
      words = all;
    }
  }
  if (!at.is_structured()) return;
  for (Schema& member : at) fill_limits(member, keys);
}

void put_limits(Schema& schema) {
  Schema keys = Schema::array();
  for (const LimitInfo& limit : kLimits) keys.push_back(limit.key());
  fill_limits(schema, keys);
}

// Puts `text` between "<!-- name -->" and the next "<!-- end -->".
void fill(std::string& document, const std::string& name, const std::string& text) {
  const std::string mark = fmt::format("<!-- {} -->\n", name);
  const std::size_t from = document.find(mark), end = document.find("<!-- end -->", from);
  if (end == std::string::npos) throw std::runtime_error("docs/pupil-file.md has no place for " + name);
  document.replace(from + mark.size(), end - from - mark.size(), text);
}

std::string row(const QuantityInfo& q, std::string_view title, std::string_view last) {
  return fmt::format("| `{}` | {} | {} |{}\n", q.key, title, words_of(entry_of(q.quantity, q.allowed)), last);
}

std::string pupil_page(std::string page) {
  std::string delivery =
      "| key | what it is | range | when missing | one standard deviation, at most | an option may add "
      "|\n|---|---|---|---|---|---|\n";
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    const QuantityInfo& q = about(part.quantity);
    const std::string added =
        part.change.known() ? words_of(entry_of(part.quantity, part.change)) : std::string("see `reach`");
    delivery +=
        row(q, q.meaning,
            fmt::format(" {} | {:g} {} | {} |", part.needed ? "error" : "0", part.sd.high, part.sd.unit, added));
  }
  fill(page, "delivery", delivery);
  std::string limits = "| key | of | within |\n|---|---|---|\n";
  for (const LimitInfo& limit : kLimits) {
    const QuantityInfo& q = about(limit.quantity);
    limits += row(q, fmt::format("{} ({})", limit.title(), q.meaning), "");
  }
  fill(page, "limits", limits);
  return page;
}

}  // namespace

std::vector<WrittenFile> written_tables(const std::filesystem::path& source) {
  std::vector<WrittenFile> out;
  const auto schema = [&](std::string_view name, void (*put_into)(Schema&)) {
    const std::string path = fmt::format("data/schema/{}.schema.json", name);
    Schema document = Schema::parse(contents(source / path));
    put_into(document);
    out.push_back({path, document.dump(2) + "\n"});
  };
  schema("pupil", put_pupil);
  schema("ball", [](Schema& s) { put_model(s, "", kBallNumbers); });
  schema("head", [](Schema& s) { put_model(s, "/$defs/numbers", kHeadNumbers); });
  schema("turf", [](Schema& s) { put_model(s, "", kTurfNumbers); });
  schema("aero", put_aero);
  schema("advise", put_limits);
  schema("chart", put_limits);
  out.push_back({"docs/pupil-file.md", pupil_page(contents(source / "docs/pupil-file.md"))});
  return out;
}

}  // namespace loftwright::cli
