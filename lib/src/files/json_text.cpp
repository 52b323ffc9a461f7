#include "files/json_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "core/traps.hpp"

namespace loftwright {

namespace {

bool is_utf16(std::string_view text) { return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"); }

constexpr std::size_t kMostTwice = 20;  // told, so that a broken file gives no flood
constexpr std::string_view kSpace = " \t\r\n";

std::string line_and_column(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  const std::size_t start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const auto is_first_byte = [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; };
  return fmt::format(
      "line {}, column {}", 1 + std::count(before.begin(), before.end(), '\n'),
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
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '_' ||
         c == '-' || c == '+';
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

// A table: heads, and something between them that parts cells.
bool is_list(std::string_view text) {
  const std::size_t start = text.find_first_not_of(kSpace);
  const char first = start == std::string_view::npos ? '{' : text[start];
  if (!is_wordly(first) && first != '#') return false;
  return text.substr(0, text.find('\n', start)).find_first_of(",;\t") != std::string_view::npos;
}

struct Mistake {
  std::size_t offset;
  std::string message;
};

// The parser's own words without its decoration.
std::string parser_words(std::string_view what) {
  const std::size_t dash = what.find(" - ");
  if (dash != std::string_view::npos) what.remove_prefix(dash + 3);
  std::string words(what);
  for (const auto& [theirs, ours] :
       {std::pair{"string literal", "text in double quotes"}, std::pair{"number literal", "number"},
        std::pair{"end of input", "end of the file"}}) {
    for (std::size_t at = words.find(theirs); at != std::string::npos; at = words.find(theirs, at + 1)) {
      words.replace(at, std::string_view(theirs).size(), ours);
    }
  }
  return words;
}

// What a person would say about a syntax error the parser found after `read` bytes.
Mistake plain_mistake(std::string_view text, std::size_t read, std::string_view what) {
  what = what.substr(0, what.find("; last read: "));  // a piece of the file itself, which may hold any words
  const auto says = [&](std::string_view words) { return what.find(words) != std::string_view::npos; };
  read = std::min(read, text.size());
  if (text.find_first_not_of(kSpace) == std::string_view::npos) {
    return {0, "nothing but space: a JSON object { ... } is expected"};
  }
  if (is_utf16(text) || says("ill-formed UTF-8")) {
    return {says("invalid string") ? quote_before(text, read - 1) : 0, "not UTF-8 text: save the file as UTF-8"};
  }
  // A text may well hold them; where the parser stops, or on the line where a text does not end, they are meant for
  // quotes.
  const std::size_t stopped = read == 0 ? 0 : read - 1, line = text.rfind('\n', stopped == 0 ? 0 : stopped - 1);
  const bool not_closed = says("missing closing quote") || says("U+000A") || says("U+000D");
  const std::size_t from = !not_closed ? stopped : line == std::string_view::npos ? 0 : line;
  if (const auto mark = curly_quote(text.substr(from, not_closed ? stopped - from : 4)); !mark.empty()) {
    return {text.find(mark, from),
            fmt::format("{} is a curly quotation mark, as tablets make them: straight ones (\") are needed", mark)};
  }
  if (is_list(text)) return {0, "a shot list or another table, not JSON; 'loftwright shots' reads lists"};
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
    if (frame.node->contains(name) && ++twice_ <= kMostTwice) {
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

}  // namespace

std::optional<Json> parse_json(std::string_view text, Findings& findings) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // some editors begin UTF-8 so
  if (const std::optional<std::size_t> offset = too_deep(text)) {
    findings.push_back({Severity::error, line_and_column(text, *offset),
                        fmt::format("nested deeper than {} levels", kDeepestNesting)});
    return std::nullopt;
  }
  // The parser takes it for the end. In UTF-16 every other byte may be one: that is told below.
  if (const std::size_t nul = text.find('\0'); nul != std::string_view::npos && !is_utf16(text)) {
    findings.push_back(
        {Severity::error, line_and_column(text, nul), "a NUL byte; a file of JSON is plain text in UTF-8"});
    return std::nullopt;
  }
  TreeBuilder builder(text, findings);
  const WithoutTraps here;  // a number too large overflows on its way to being refused
  if (!Json::sax_parse(text, &builder)) return std::nullopt;
  return std::move(builder.tree());
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
  std::string out;
  out.reserve(place.size() + 1 + key.size());
  out += place;
  out += '/';
  for (const char c : key) {  // RFC 6901, section 3
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out += c;
    }
  }
  return out;
}

std::string below(const std::string& place, std::size_t index) { return fmt::format("{}/{}", place, index); }

}  // namespace loftwright
