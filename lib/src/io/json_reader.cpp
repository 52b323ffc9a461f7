#include "io/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/nearest.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostFindings = 20;   // of one kind in one object, so that a broken file gives no flood
constexpr std::size_t kMostItems = 1000;    // in a list of numbers
constexpr std::string_view kSpace = " \t\r\n";

std::string line_and_column(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  const std::size_t start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const auto is_first_byte = [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; };
  return fmt::format("line {}, column {}", 1 + std::count(before.begin(), before.end(), '\n'),
                     1 + std::count_if(before.begin() + static_cast<std::ptrdiff_t>(start), before.end(), is_first_byte));
}

// Where nesting first goes beyond what is allowed, found without building anything.
std::optional<std::size_t> too_deep(std::string_view text) {
  int depth = 0;
  bool inside_text = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (inside_text) {
      if (c == '\\') ++i;
      if (c == '"') inside_text = false;
    } else if (c == '"') {
      inside_text = true;
    } else if (c == '[' || c == '{') {
      if (++depth > kDeepestNesting) return i;
    } else if (c == ']' || c == '}') {
      --depth;
    }
  }
  return std::nullopt;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

// What a person would call a word: letters, digits, points and signs.
bool is_wordly(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-' ||
         c == '+';
}

std::string_view word_at(std::string_view text, std::size_t offset) {
  std::size_t end = offset;
  while (end < text.size() && is_wordly(text[end])) ++end;
  return text.substr(offset, end - offset);
}

// Where the word begins that the parser stopped in or just behind, `read` bytes into the text.
std::size_t word_start(std::string_view text, std::size_t read) {
  std::size_t start = read == 0 ? 0 : read - 1;
  if (start > 0 && !is_wordly(text[start]) && is_wordly(text[start - 1])) --start;
  if (is_wordly(text[start])) {
    while (start > 0 && is_wordly(text[start - 1])) --start;
  }
  return start;
}

// The last double quote before `end` that is not escaped.
std::size_t quote_before(std::string_view text, std::size_t end) {
  std::size_t at = end == 0 ? std::string_view::npos : text.rfind('"', end - 1);
  while (at != std::string_view::npos && at > 0 && text[at - 1] == '\\') at = text.rfind('"', at - 1);
  return at == std::string_view::npos ? 0 : at;
}

struct Mistake {
  std::size_t offset;
  std::string message;
};

// The parser's own words without its decoration.
std::string parser_words(std::string_view what) {
  const std::size_t dash = what.find(" - ");
  if (dash != std::string_view::npos) what.remove_prefix(dash + 3);
  what = what.substr(0, what.find("; last read: "));
  std::string words(what);
  for (const auto& [theirs, ours] : {std::pair{"string literal", "text in double quotes"},
                                     std::pair{"number literal", "number"},
                                     std::pair{"end of input", "end of the file"}}) {
    for (std::size_t at = words.find(theirs); at != std::string::npos; at = words.find(theirs, at + 1)) {
      words.replace(at, std::string_view(theirs).size(), ours);
    }
  }
  return words;
}

// What a person would say about a syntax error the parser found after `read` bytes.
Mistake plain_mistake(std::string_view text, std::size_t read, std::string_view what) {
  const auto says = [&](std::string_view words) { return what.find(words) != std::string_view::npos; };
  read = std::min(read, text.size());
  if (text.find_first_not_of(kSpace) == std::string_view::npos) {
    return {0, "nothing but space: a JSON object { ... } is expected"};
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF") || says("ill-formed UTF-8")) {
    return {says("invalid string") ? quote_before(text, read - 1) : 0, "not UTF-8 text: save the file as UTF-8"};
  }
  if (says("missing closing quote") || says("U+000A") || says("U+000D")) {
    return {quote_before(text, says("missing closing quote") ? read : read - 1),
            "this text is not closed by a double quote on its line"};
  }
  if (says("unexpected end of input")) return {text.size(), "the file ends too soon: a closing '}' or ']' is missing"};
  if (says("unexpected string literal")) return {quote_before(text, read - 1), parser_words(what)};
  if (says("invalid string")) return {read - 1, parser_words(what)};

  const std::size_t start = word_start(text, read);
  const char at = text[start];
  const std::string word(word_at(text, start).substr(0, 40)), small = lower(word);
  const std::size_t last = start == 0 ? std::string_view::npos : text.find_last_not_of(kSpace, start - 1);
  const bool after_comma = last != std::string_view::npos && text[last] == ',';
  if (says("number overflow")) return {start, fmt::format("number overflow: {} is too large to be a number", word)};
  if (after_comma && (at == '}' || at == ']')) {
    return {last, fmt::format("trailing comma: nothing follows it before '{}'", at)};
  }
  if (after_comma && says("number literal")) {
    return {last, "a number after a comma where a key is expected: decimals are written with a point (9.5)"};
  }
  if (at == '/' || at == '#') return {start, "comments are not part of JSON: put them into \"notes\""};
  if (at == '\'') return {start, "text stands in double quotes, not single ones"};
  if (small == "nan" || small.ends_with("inf") || small.ends_with("infinity")) {
    return {start, fmt::format("{} is not a number that can be used: every number must be finite", word)};
  }
  if (small == "true" || small == "false" || small == "null" || small == "none") {
    return {start, fmt::format("{}: write true, false or null in small letters", word)};
  }
  if (says("invalid literal") && (at == '+' || at == '.')) {
    return {start, fmt::format("{}: a number begins with a digit or '-'", word)};
  }
  if (says("invalid literal") && !word.empty()) return {start, fmt::format("{} needs double quotes", word)};
  return {start, parser_words(what)};
}

// Builds the tree while the parser reads, which is the only moment a key that stands twice can be seen.
class TreeBuilder : public nlohmann::json_sax<Json> {
 public:
  TreeBuilder(std::string_view text, Findings& findings) : text_(text), findings_(findings) {}

  Json& tree() { return tree_; }

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override { return put(std::move(value)); }
  bool binary(binary_t&) override { return false; }  // text has none
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t& name) override {
    Frame& frame = frames_.back();
    if (frame.node->contains(name) && ++twice_ <= kMostFindings) {
      findings_.push_back({Severity::error, below(frame.place, name), "this key stands twice in the same object"});
    }
    frame.key = std::move(name);
    return true;
  }
  bool parse_error(std::size_t read, const std::string&, const nlohmann::detail::exception& error) override {
    const Mistake mistake = plain_mistake(text_, read, error.what());
    findings_.push_back({Severity::error, line_and_column(text_, mistake.offset), mistake.message});
    return false;
  }

 private:
  struct Frame {
    Json* node;
    std::string place;
    std::string key;
  };

  bool put(Json value) {
    add(std::move(value));
    return true;
  }
  bool open(Json value) {
    std::string place;
    if (!frames_.empty()) {
      const Frame& f = frames_.back();
      place = f.node->is_array() ? below(f.place, f.node->size()) : below(f.place, f.key);
    }
    Json* node = add(std::move(value));
    frames_.push_back({node, std::move(place), {}});
    return true;
  }
  bool close() {
    frames_.pop_back();
    return true;
  }
  Json* add(Json value) {
    if (frames_.empty()) {
      tree_ = std::move(value);
      return &tree_;
    }
    Frame& f = frames_.back();
    if (f.node->is_array()) {
      f.node->push_back(std::move(value));
      return &f.node->back();
    }
    return &((*f.node)[f.key] = std::move(value));
  }

  std::string_view text_;
  Findings& findings_;
  Json tree_;
  std::vector<Frame> frames_;
  std::size_t twice_ = 0;
};

// A value of the wrong kind, as a message names it.
std::string shown(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  if (value.is_string()) return "the text " + in_quotes(value.get_ref<const std::string&>());
  return value.dump();
}

// An end of a range in the unit typed: few digits, and rounded so that the printed end is itself allowed.
std::string shown_end(double end, bool is_low) {
  if (end == 0.0 || !std::isfinite(end)) return fmt::format("{:g}", end);
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(end))) - 3.0);
  double rounded = std::round(end / step) * step;
  const bool exact = std::abs(rounded - end) <= 1e-9 * std::abs(end);
  if (!exact) rounded = (is_low ? std::ceil(end / step) : std::floor(end / step)) * step;
  return fmt::format("{:.10g}", rounded);
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

std::optional<Json> parse_json(std::string_view text, Findings& findings) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // some editors begin UTF-8 so
  if (const std::optional<std::size_t> offset = too_deep(text)) {
    findings.push_back({Severity::error, line_and_column(text, *offset),
                        fmt::format("nested deeper than {} levels", kDeepestNesting)});
    return std::nullopt;
  }
  TreeBuilder builder(text, findings);
  if (!Json::sax_parse(text, &builder)) return std::nullopt;
  return std::move(builder.tree());
}

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
  return fail("/format", fmt::format("is {}; \"{}\" is expected", in_quotes(found), format));
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t kMost = 40;
  std::string out(text.substr(0, kMost));
  if (text.size() > kMost) {
    while (!out.empty() && (static_cast<unsigned char>(text[out.size()]) & 0xC0u) == 0x80u) out.pop_back();
    out += "...";
  }
  return Json(out).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string below(const std::string& place, std::string_view key) {
  return (Json::json_pointer(place) / std::string(key)).to_string();
}

std::string below(const std::string& place, std::size_t index) { return fmt::format("{}/{}", place, index); }

std::string Quantity::shown(double value) const { return fmt::format("{:.4g} {}", unit->from_si(value), unit->symbol); }

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

std::optional<Quantity> ObjectReader::quantity(std::string_view base, Dimension dimension, const Range& range, Need need) {
  const std::optional<Found> found = find(base, dimension, need);
  if (!found) return std::nullopt;
  const std::optional<double> si = value_in(*found->value, found->place, found->unit, range);
  if (!si) return std::nullopt;
  return Quantity{*si, found->unit, found->place};
}

std::optional<QuantityInterval> ObjectReader::interval(std::string_view base, Dimension dimension, const Range& range,
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
  QuantityInterval out{{}, found->unit, found->place};
  const auto end = [&](std::size_t i, double& into) {
    if (open && pair[i].is_null()) return true;
    const std::optional<double> value = value_in(pair[i], below(found->place, i), found->unit, range);
    if (value) into = *value;
    return value.has_value();
  };
  const bool low = end(0, out.si.low), high = end(1, out.si.high);
  if (!low || !high) return std::nullopt;
  if (out.si.low > out.si.high) {
    error(found->place, fmt::format("the ends are crossed: {:.6g} is above {:.6g} (low comes first)", pair[0].get<double>(),
                                    pair[1].get<double>()));
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
  const auto to_si = [](double end, std::string_view in) { return in.empty() ? end : loftwright::unit(in).to_si(end); };
  const double low = to_si(range.low, range.unit), high = to_si(range.high, range.unit);
  const double si = unit ? unit->to_si(typed) : typed;
  const double rounding = 1e-12 * (std::abs(low) + std::abs(high));  // a bound typed in another unit is allowed
  if (si >= low - rounding && si <= high + rounding) return std::clamp(si, low, high);
  const std::string symbol = unit ? fmt::format(" {}", unit->symbol) : "";
  error(place, fmt::format("{:.6g}{} is out of range; allowed: {} to {}{}", typed, symbol,
                           shown_end(unit ? unit->from_si(low) : low, true),
                           shown_end(unit ? unit->from_si(high) : high, false), symbol));
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
    return fmt::format("{} has a unit of {}; {} takes a unit of {}: write {}", in_quotes(key), name_of(other->dimension),
                       known->name, name_of(*known->dimension), write);
  }
  std::vector<std::string> all;
  std::string patterns;
  for (const Known& known : known_) {
    for (std::string& form : forms(known.name, known.dimension)) all.push_back(std::move(form));
    patterns += fmt::format("{}{}", patterns.empty() ? "" : ", ", pattern(known.name, known.dimension));
  }
  const std::string near = nearest(key, all);
  const std::string message = fmt::format("unknown key {}; the nearest known key is \"{}\"", in_quotes(key), near);
  const bool likely = edit_distance(key, near) <= std::max<std::size_t>(2, near.size() / 3);
  return likely ? message : fmt::format("{}; known here: {}", message, patterns);
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

void ObjectReader::not_one_of(const std::string& place, const std::string& found, const std::vector<std::string>& words) {
  error(place, fmt::format("{} is not one of the words allowed here: {}", in_quotes(found), alternatives(words)));
}

}  // namespace loftwright
