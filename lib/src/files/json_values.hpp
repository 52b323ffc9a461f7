// What the JSON that the program writes is made of; loftwright/report/json.hpp says what holds for all of it.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace loftwright {

using OrderedJson = nlohmann::ordered_json;

// A value in the unit of its key ("" for a bare number). Twelve digits: more than any model here means, and no tail of
// binary rounding. Throws std::logic_error when it is not finite.
OrderedJson in(std::string_view symbol, double si);

// The document of a text that was read before, or that we wrote. Here, because every file that has a parser of its own
// compiled takes the compiler a second more. Throws OrderedJson::parse_error.
OrderedJson parsed(std::string_view text);

// Indented text that ends with a newline.
std::string text_of(const OrderedJson& json);

// JSON as text, each number with at most 12 digits, whose value it has; `indent` as in dump, -1 for one line. Throws
// OrderedJson::type_error for what is not UTF-8.
std::string dumped(const OrderedJson& json, int indent = -1);

// Adds "follow", "speed_per_attack_mps_per_deg", "reached_share" and "calibration", in an academy's file and in
// answers.
struct Academy;
void add_academy(OrderedJson& out, const Academy& academy);

}  // namespace loftwright
