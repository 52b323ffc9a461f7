#include "files/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/nearest.hpp"
#include "core/text.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostFindings = 20;  // of one kind in one object, so that a broken file gives no flood
constexpr std::size_t kMostItems = 1000;   // in a list of numbers

// A value of the wrong kind, as a message names it.
std::string shown(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  if (value.is_string()) return "the text " + in_quotes(value.get_ref<const std::string&>());
  return value.dump();
}

std::vector<std::string> forms(const std::string& name, const std::optional<Dimension>& dimension) {
  if (!dimension) return {name};
  std::vector<std::string> out;
  for (const Unit& u : units()) {
    if (u.dimension == *dimension) out.push_back(fmt::format("{}_{}", name, u.suffix));
  }
  return out;
}

// "a", "a or b", "a, b or c"
std::string alternatives(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " or " : ", ", words[i]);
  }
  return out;
}

// One word for a key in every unit: "club_speed_(mps|mph)".
std::string pattern(const std::string& name, const std::optional<Dimension>& dimension) {
  if (!dimension) return name;
  std::string suffixes;
  for (const Unit& u : units()) {
    if (u.dimension == *dimension) suffixes += fmt::format("{}{}", suffixes.empty() ? "" : "|", u.suffix);
  }
  return fmt::format("{}_({})", name, suffixes);
}

}  // namespace

bool format_is(const Json& document, std::string_view format, Findings& findings) {
  const auto fail = [&](const std::string& place, std::string message) {
    findings.push_back({Severity::error, place, std::move(message)});
    return false;
  };
  if (!document.is_object()) return fail("", fmt::format("is {}; an object {{ ... }} is expected", shown(document)));
  const auto at = document.find("format");
  if (at == document.end()) return fail("", fmt::format("format is missing; write \"format\": \"{}\"", format));
  if (!at->is_string()) return fail("/format", fmt::format("is {}; \"{}\" is expected", shown(*at), format));
  const std::string& found = at->get_ref<const std::string&>();
  if (found == format) return true;
  const std::string_view kind = format.substr(0, format.find('/') + 1);
  const std::optional<double> version =
      found.starts_with(kind) ? parse_number(std::string_view(found).substr(kind.size())) : std::nullopt;
  if (version && *version > parse_number(format.substr(kind.size())).value_or(0.0)) {
    return fail("/format", fmt::format("{} is newer than this program can read (\"{}\"): use a newer loftwright",
                                       in_quotes(found), format));
  }
  if (version) {
    return fail(
        "/format",
        fmt::format(
            "{} is an older format that is read no longer; \"{}\" is expected (docs/CHANGES.md says what moved)",
            in_quotes(found), format));
  }
  return fail("/format", fmt::format("is {}; \"{}\" is expected", in_quotes(found), format));
}

std::string TypedQuantity::shown(double value) const {
  return fmt::format("{:.4g} {}", unit->from_si(value), unit->symbol);
}

bool read_object(const Json& value, const std::string& place, Findings& findings, const ReadMembers& read) {
  if (!value.is_object()) {
    findings.push_back({Severity::error, place, fmt::format("is {}; an object {{ ... }} is expected", shown(value))});
    return false;
  }
  ObjectReader reader(value, place, findings);
  read(reader);
  reader.finish();
  return true;
}

void ObjectReader::error(const std::string& place, std::string message) {
  findings_.push_back({Severity::error, place, std::move(message)});
}

void ObjectReader::warn(const std::string& place, std::string message) {
  findings_.push_back({Severity::warning, place, std::move(message)});
}

bool ObjectReader::has(std::string_view name) const {
  const auto given = [&](const Unit& u) { return object_.contains(fmt::format("{}_{}", name, u.suffix)); };
  return object_.contains(name) || std::any_of(units().begin(), units().end(), given);
}

const Json* ObjectReader::member(std::string_view key, Need need) {
  const auto at = object_.find(key);
  known_.push_back({std::string(key), std::nullopt, need == Need::required, at != object_.end()});
  return at == object_.end() ? nullptr : &*at;
}

std::optional<std::string> ObjectReader::text(std::string_view key, Need need) {
  const Json* value = member(key, need);
  if (!value) return std::nullopt;
  if (!value->is_string()) {
    error(below(place_, key), fmt::format("is {}; text in double quotes is expected", loftwright::shown(*value)));
    return std::nullopt;
  }
  const std::string& found = value->get_ref<const std::string&>();
  const auto is_control = [](char c) { return (c >= 0 && c < ' ' && c != '\n' && c != '\t') || c == 0x7F; };
  if (std::any_of(found.begin(), found.end(), is_control)) {
    error(below(place_, key), "holds control characters; only printable text, tabs and line ends are allowed");
    return std::nullopt;
  }
  return found;
}

std::optional<double> ObjectReader::number(std::string_view key, const Range& range, Need need) {
  const Json* value = member(key, need);
  if (!value) return std::nullopt;
  return value_in(*value, below(place_, key), nullptr, range);
}

std::optional<int> ObjectReader::whole(std::string_view key, int low, int high, Need need) {
  const auto value = number(key, {static_cast<double>(low), static_cast<double>(high)}, need);
  if (!value) return std::nullopt;
  if (*value == std::floor(*value)) return static_cast<int>(*value);
  error(below(place_, key), fmt::format("is {:g}; a whole number is expected", *value));
  return std::nullopt;
}

bool ObjectReader::object(std::string_view key, Need need, const ReadMembers& read) {
  const Json* value = member(key, need);
  return value && read_object(*value, below(place_, key), findings_, read);
}

std::optional<ObjectReader::Found> ObjectReader::find(std::string_view base, Dimension dimension, Need need) {
  std::optional<Found> found;
  std::vector<std::string> given;
  for (const std::string& key : forms(std::string(base), dimension)) {
    const auto at = object_.find(key);
    if (at == object_.end()) continue;
    given.push_back(key);
    found = Found{&*at, find_suffix(std::string_view(key).substr(base.size() + 1)), below(place_, key)};
  }
  known_.push_back({std::string(base), dimension, need == Need::required, found.has_value()});
  if (given.size() < 2) return found;
  error(place_, fmt::format("{} is given in {} units: {}; give one", base, given.size(), fmt::join(given, ", ")));
  return std::nullopt;
}

std::optional<TypedQuantity> ObjectReader::quantity(std::string_view base, Dimension dimension, const Range& range,
                                                    Need need) {
  const std::optional<Found> found = find(base, dimension, need);
  if (!found) return std::nullopt;
  const std::optional<double> si = value_in(*found->value, found->place, found->unit, range);
  if (!si) return std::nullopt;
  return TypedQuantity{*si, found->unit, found->place};
}

std::optional<TypedQuantity> ObjectReader::quantity(Quantity which, Need need) {
  const QuantityInfo& q = about(which);
  return quantity(q.key, q.dimension, q.allowed, need);
}

std::optional<double> ObjectReader::number(Quantity which, Need need) {
  return number(about(which).key, about(which).allowed, need);
}

std::optional<TypedInterval> ObjectReader::interval(std::string_view base, Dimension dimension, const Range& range,
                                                    Ends ends, Need need) {
  const std::optional<Found> found = find(base, dimension, need);
  if (!found) return std::nullopt;
  const Json& pair = *found->value;
  const bool open = ends == Ends::may_be_open;
  const char* expected = open ? "[low, high], either of them null when open" : "[low, high]";
  if (!pair.is_array() || pair.size() != 2) {
    const std::string is = pair.is_array() ? fmt::format("a list of {}", pair.size()) : loftwright::shown(pair);
    error(found->place, fmt::format("is {}; {} is expected", is, expected));
    return std::nullopt;
  }
  if (open && pair[0].is_null() && pair[1].is_null()) {
    error(found->place, "both ends are null: give at least one, or leave the key out");
    return std::nullopt;
  }
  TypedInterval out{{}, found->unit, found->place};
  const auto end = [&](std::size_t i, double& into) {
    if (open && pair[i].is_null()) return true;
    const std::optional<double> value = value_in(pair[i], below(found->place, i), found->unit, range);
    if (value) into = *value;
    return value.has_value();
  };
  const bool low = end(0, out.si.low), high = end(1, out.si.high);
  if (!low || !high) return std::nullopt;
  if (out.si.low > out.si.high) {
    error(found->place, fmt::format("the ends are crossed: {:.6g} is above {:.6g} (low comes first)",
                                    pair[0].get<double>(), pair[1].get<double>()));
    return std::nullopt;
  }
  return out;
}

std::optional<double> ObjectReader::value_in(const Json& value, const std::string& place, const Unit* unit,
                                             const Range& range) {
  if (!value.is_number()) {
    error(place, fmt::format("is {}; a number is expected", loftwright::shown(value)));
    return std::nullopt;
  }
  const double typed = value.get<double>();
  const double low = low_of(range), high = high_of(range);
  const double si = unit ? unit->to_si(typed) : typed;
  const double rounding = 1e-12 * (std::abs(low) + std::abs(high));  // a bound typed in another unit is allowed
  if (si >= low - rounding && si <= high + rounding) return std::clamp(si, low, high);
  const std::string symbol = unit ? fmt::format(" {}", unit->symbol) : "";
  error(place, fmt::format("{:.6g}{} is out of range; allowed: {} to {}{}", typed, symbol,
                           range_end(unit ? unit->from_si(low) : low, true),
                           range_end(unit ? unit->from_si(high) : high, false), symbol));
  return std::nullopt;
}

std::optional<std::vector<double>> ObjectReader::values_in(const Json& list, const std::string& place, const Unit* unit,
                                                           const Range& range) {
  if (!list.is_array()) {
    error(place, fmt::format("is {}; a list of numbers is expected", loftwright::shown(list)));
    return std::nullopt;
  }
  if (list.empty() || list.size() > kMostItems) {
    error(place, list.empty() ? "is an empty list: give at least one number"
                              : fmt::format("has {} numbers; allowed: at most {}", list.size(), kMostItems));
    return std::nullopt;
  }
  std::vector<double> values;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (const auto value = value_in(list[i], below(place, i), unit, range)) values.push_back(*value);
  }
  if (values.size() != list.size()) return std::nullopt;
  return values;
}

// The known quantity a key seems to mean: its base name alone, or with something that is no unit of it behind.
const ObjectReader::Known* ObjectReader::base_of(std::string_view key) const {
  const Known* best = nullptr;
  for (const Known& known : known_) {
    if (!known.dimension || (best && best->name.size() >= known.name.size()) || !key.starts_with(known.name)) continue;
    const std::string_view rest = key.substr(known.name.size());
    const bool one_suffix = rest.size() > 1 && rest[0] == '_' && rest.find('_', 1) == std::string_view::npos;
    if (rest.empty() || one_suffix) best = &known;
  }
  return best;
}

std::string ObjectReader::unknown(std::string_view key) const {
  if (const Known* known = base_of(key)) {
    const std::string write = alternatives(forms(known->name, known->dimension));
    if (key == known->name) return fmt::format("{} has no unit in its name; write {}", in_quotes(key), write);
    const std::string_view suffix = key.substr(known->name.size() + 1);
    const Unit* other = find_suffix(suffix);
    if (!other) return fmt::format("{}: no unit has the suffix {}; write {}", in_quotes(key), in_quotes(suffix), write);
    return fmt::format("{} has a unit of {}; {} takes a unit of {}: write {}", in_quotes(key),
                       name_of(other->dimension), known->name, name_of(*known->dimension), write);
  }
  std::vector<std::string> all;
  std::string patterns;
  for (const Known& known : known_) {
    for (std::string& form : forms(known.name, known.dimension)) all.push_back(std::move(form));
    patterns += fmt::format("{}{}", patterns.empty() ? "" : ", ", pattern(known.name, known.dimension));
  }
  const std::string near = nearest(key, all);
  const std::string message = fmt::format("unknown key {}; the nearest known key is \"{}\"", in_quotes(key), near);
  return is_near(key, near) ? message : fmt::format("{}; known here: {}", message, patterns);
}

void ObjectReader::finish() {
  std::vector<std::string> known_forms;
  for (const Known& known : known_) {
    for (std::string& form : forms(known.name, known.dimension)) known_forms.push_back(std::move(form));
  }
  std::sort(known_forms.begin(), known_forms.end());
  std::vector<const Known*> meant;
  std::size_t count = 0;
  for (const auto& [key, value] : object_.items()) {
    if (std::binary_search(known_forms.begin(), known_forms.end(), key)) continue;
    if (const Known* known = base_of(key)) meant.push_back(known);
    if (++count <= kMostFindings) error(below(place_, key.substr(0, 60)), unknown(key));
  }
  if (count > kMostFindings) error(place_, fmt::format("and {} more unknown keys", count - kMostFindings));
  for (const Known& known : known_) {
    const bool said = std::find(meant.begin(), meant.end(), &known) != meant.end();
    if (!known.required || known.seen || said) continue;
    error(place_, fmt::format("{} is missing{}", known.name,
                              known.dimension ? "; write " + alternatives(forms(known.name, known.dimension)) : ""));
  }
}

void ObjectReader::not_one_of(const std::string& place, const std::string& found,
                              const std::vector<std::string>& words) {
  error(place, fmt::format("{} is not one of the words allowed here: {}", in_quotes(found), alternatives(words)));
}

}  // namespace loftwright
