// Keys and ranges in the schemas and in docs/pupil-file.md are those of the tables (core/quantity.hpp,
// pupil/pupil.hpp). They are written from them: LOFTWRIGHT_APPROVE=1 does, and leaves every other word as it is.
#include <fmt/format.h>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "folders.hpp"
#include "loftwright/pupil/complete.hpp"
#include "loftwright/shots/reading.hpp"

using namespace loftwright;
using nlohmann::ordered_json;

namespace {

std::string contents(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

void check_kept(const std::string& path, const std::string& text) {
  const std::string file = LOFTWRIGHT_SOURCE_DIR "/" + path;
  if (std::getenv("LOFTWRIGHT_APPROVE")) std::ofstream(file, std::ios::binary) << text;
  INFO(path << " is not what the tables say; if the change is meant, run the test with LOFTWRIGHT_APPROVE=1");
  CHECK((contents(file) == text));
}

// "-20 to 20 deg"; pressures as people give them.
std::string words_of(const QuantityInfo& q, const Range& range) {
  const std::string_view symbol = range.unit == "Pa" ? q.typed : range.unit;
  const auto in_unit = [&](double si) { return symbol.empty() ? si : unit(symbol).from_si(si); };
  return fmt::format("{:.6g} to {:.6g}{}{}", in_unit(low_of(range)), in_unit(high_of(range)), symbol.empty() ? "" : " ",
                     symbol);
}

std::string pattern_of(const QuantityInfo& q) {
  std::string suffixes;
  for (const Unit& u : units()) {
    if (u.dimension == q.dimension) suffixes += fmt::format("{}{}", suffixes.empty() ? "" : "|", u.suffix);
  }
  return fmt::format("^{}_({})$", q.key, suffixes);
}

// One key of an object of the schema: the range in its description, or a key of its own with a description of the
// table's. `like`: what a key that is not there yet is made like.
void put(ordered_json& schema, const std::string& object, Quantity quantity, const Range& range,
         const std::string& like = "") {
  const QuantityInfo& q = about(quantity);
  ordered_json& keys = schema[ordered_json::json_pointer(object + (is_bare(q) ? "/properties" : "/patternProperties"))];
  const std::string key = is_bare(q) ? std::string(q.key) : pattern_of(q), words = words_of(q, range);
  INFO(object << " " << key);
  if (!keys.contains(key)) {
    keys[key] = like.empty() ? ordered_json{{"type", "number"}} : keys.at(like);
    keys[key]["description"] = fmt::format("{}; {}", q.meaning, words);
  }
  if (is_bare(q)) {
    keys[key]["minimum"] =
        range.low == std::floor(range.low) ? ordered_json(static_cast<int>(range.low)) : ordered_json(range.low);
    keys[key]["maximum"] =
        range.high == std::floor(range.high) ? ordered_json(static_cast<int>(range.high)) : ordered_json(range.high);
    return;
  }
  static const std::regex kRange(R"(-?[0-9][0-9. ]* to -?[0-9][0-9. ]* (m/s|mph|deg|rpm|mm|m|C|%|hPa))");
  const std::string said = keys[key]["description"].get<std::string>();
  REQUIRE(std::regex_search(said, kRange));
  keys[key]["description"] = std::regex_replace(said, kRange, words, std::regex_constants::format_first_only);
}

void put(ordered_json& schema, const std::string& object, std::initializer_list<Quantity> quantities) {
  for (const Quantity q : quantities) put(schema, object, q, about(q).allowed);
}

ordered_json pupil_schema(ordered_json schema) {
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    put(schema, "/properties/delivery", part.quantity, about(part.quantity).allowed);
    put(schema, "/properties/spread", part.quantity, part.sd);
    if (part.change.known()) put(schema, "/properties/reach/properties/options/items", part.quantity, part.change);
  }
  const std::string like = pattern_of(about(Quantity::landing));
  for (const LimitInfo& limit : kLimits)
    put(schema, "/properties/limits", limit.quantity, about(limit.quantity).allowed, like);
  for (const NumberDatum& d : kNumberData) {
    put(schema, d.section.empty() ? "" : fmt::format("/properties/{}", d.section), d.quantity,
        about(d.quantity).allowed);
  }
  put(schema, "", {Quantity::worthwhile, Quantity::measured_shots});
  put(schema, "/properties/club", {Quantity::loft});
  put(schema, "/properties/launch",
      {Quantity::ball_speed, Quantity::launch, Quantity::spin, Quantity::azimuth, Quantity::tilt});
  put(schema, "/properties/sleeve", {Quantity::face_per_loft});
  put(schema, "/properties/reach", {Quantity::speed_per_attack, Quantity::effort_per_attack});
  put(schema, "/properties/reach/properties/options/items", {Quantity::effort});
  put(schema, "/properties/conditions", {Quantity::pressure, Quantity::wind_from});
  return schema;
}

// Wherever one of them is a word of the schema, all of them are: the keys of limits, or of readings.
void fill_words(ordered_json& at, const ordered_json& keys) {
  if (at.is_object() && at.contains("enum") && at["enum"].is_array()) {
    ordered_json& words = at["enum"];
    const auto known = [&](const ordered_json& word) {
      return std::find(keys.begin(), keys.end(), word) != keys.end();
    };
    const auto count = std::count_if(words.begin(), words.end(), known);
    if (count > 1 && count + 2 >= static_cast<long>(words.size())) {
      ordered_json all = keys;
      if (std::find(words.begin(), words.end(), ordered_json(nullptr)) != words.end()) all.push_back(nullptr);
      words = all;
    }
  }
  if (at.is_structured()) {
    for (ordered_json& member : at) fill_words(member, keys);
  }
}

void fill(std::string& document, const std::string& name, const std::string& text) {
  const std::string mark = fmt::format("<!-- {} -->\n", name);
  const std::size_t from = document.find(mark);
  INFO("no place for " << name);
  REQUIRE(from != std::string::npos);
  const std::size_t begin = from + mark.size(), end = document.find("<!-- end -->", begin);
  REQUIRE(end != std::string::npos);
  document.replace(begin, end - begin, text);
}

std::string row(const QuantityInfo& q, std::string_view title, std::string_view last) {
  return fmt::format("| `{}` | {} | {} |{}\n", q.key, title, words_of(q, q.allowed), last);
}

}  // namespace

TEST_CASE("keys and ranges in the schema of a pupil are the tables'") {
  const std::string path = "data/schema/pupil.schema.json";
  check_kept(path, pupil_schema(ordered_json::parse(contents(LOFTWRIGHT_SOURCE_DIR "/" + path))).dump(2) + "\n");
}

TEST_CASE("what may be limited is the same in every schema") {
  ordered_json keys = ordered_json::array();
  for (const LimitInfo& limit : kLimits) keys.push_back(limit.key());
  for (const char* name : {"advise", "chart"}) {
    const std::string path = fmt::format("data/schema/{}.schema.json", name);
    ordered_json schema = ordered_json::parse(contents(LOFTWRIGHT_SOURCE_DIR "/" + path));
    fill_words(schema, keys);
    check_kept(path, schema.dump(2) + "\n");
  }
}

TEST_CASE("the tables of docs/pupil-file.md are those of the program") {
  std::string page = contents(LOFTWRIGHT_SOURCE_DIR "/docs/pupil-file.md");
  std::string delivery =
      "| key | what it is | range | when missing | one standard deviation, at most | an option may add "
      "|\n|---|---|---|---|---|---|\n";
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    const QuantityInfo& q = about(part.quantity);
    delivery += row(q, q.meaning,
                    fmt::format(" {} | {:g} {} | {} |", part.needed ? "error" : "0", part.sd.high, part.sd.unit,
                                part.change.known() ? words_of(q, part.change) : "see `reach`"));
  }
  fill(page, "delivery", delivery);
  std::string limits = "| key | of | within |\n|---|---|---|\n";
  for (const LimitInfo& limit : kLimits) {
    const QuantityInfo& q = about(limit.quantity);
    limits += row(q, fmt::format("{} ({})", limit.title(), q.meaning), "");
  }
  fill(page, "limits", limits);
  check_kept("docs/pupil-file.md", page);
}
