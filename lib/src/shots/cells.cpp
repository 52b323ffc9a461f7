#include "shots/cells.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"

namespace loftwright {

namespace {

bool is_separator(char c) { return c == '.' || c == ','; }

std::string_view trim(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

// A cell cut around its number: "down 2.5 deg" -> "down", "2.5", "deg".
struct Parts {
  std::string_view before, number, after;
};

Parts cut(std::string_view text) {
  const auto starts = [&](std::size_t i) {
    return is_digit(text[i]) || (is_separator(text[i]) && i + 1 < text.size() && is_digit(text[i + 1]));
  };
  std::size_t begin = 0;
  while (begin < text.size() && !starts(begin)) ++begin;
  std::size_t end = begin;
  while (end < text.size() && (is_digit(text[end]) || is_separator(text[end]))) ++end;
  if (end > begin && end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
    const std::size_t digits =
        end + 1 < text.size() && (text[end + 1] == '-' || text[end + 1] == '+') ? end + 2 : end + 1;
    if (digits < text.size() && is_digit(text[digits])) {
      for (end = digits; end < text.size() && is_digit(text[end]);) ++end;
    }
  }
  if (begin > 0 && begin < text.size() && (text[begin - 1] == '-' || text[begin - 1] == '+')) --begin;
  return {trim(text.substr(0, begin)), text.substr(begin, end - begin), trim(text.substr(end))};
}

// "1,250" or "12.345.678": groups of three after one to three digits, with one separator throughout. Not "0,250".
bool grouped(std::string_view digits, char separator) {
  if (digits.starts_with('0')) return false;
  std::size_t run = 0, groups = 0;
  for (const char c : digits) {
    if (c == separator) {
      if (groups == 0 ? run < 1 || run > 3 : run != 3) return false;
      ++groups;
      run = 0;
    } else if (is_digit(c)) {
      ++run;
    } else {
      return false;
    }
  }
  return groups > 0 && run == 3;
}

// "2 350" and "2'310" -> "2350" and "2310": what stands between digits in threes groups thousands, whatever the
// decimals.
std::string ungrouped(std::string_view text) {
  const auto group_at = [&](std::size_t i, char mark) {
    const auto digit = [&](std::size_t at) { return at < text.size() && is_digit(text[at]); };
    return i < text.size() && text[i] == mark && digit(i + 1) && digit(i + 2) && digit(i + 3) && !digit(i + 4);
  };
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && is_digit(text[end])) ++end;
    const bool leads = end > i && end - i <= 3 && text[i] != '0' && (i == 0 || !is_separator(text[i - 1]));
    out += text.substr(i, end - i);
    for (const char mark : {' ', '\''}) {
      for (; leads && group_at(end, mark); end += 4) out += text.substr(end + 1, 3);
    }
    if (end == i) out += text[end++];
    i = end;
  }
  return out;
}

std::string_view without_sign(std::string_view number) {
  if (number.starts_with('-') || number.starts_with('+')) number.remove_prefix(1);
  return number;
}

// The number with a point for decimals and nothing between thousands. Empty: thousands not in threes.
std::optional<std::string> normal(std::string_view number, Decimal decimal) {
  const char point = decimal == Decimal::point ? '.' : ',', separator = decimal == Decimal::point ? ',' : '.';
  std::string whole(number.substr(0, number.find(point)));
  std::string rest(number.substr(whole.size()));
  if (rest.find(separator) != std::string::npos) return std::nullopt;
  if (whole.find(separator) != std::string::npos) {
    if (!grouped(without_sign(whole), separator)) return std::nullopt;
    std::erase(whole, separator);
  }
  if (!rest.empty()) rest.front() = '.';
  return whole + rest;
}

// Takes a sign word off the end of `text` and returns its sign; 0 when there is none.
int take_sign_word(std::string_view& text, const ReadingWords& words) {
  const std::string folded = fold(text);
  const auto ends = [&](const std::vector<std::string>& list) -> std::size_t {
    for (const std::string& word : list) {
      // Only blanks and letters fold, so lengths agree unless blanks were doubled; then the word stands alone anyway.
      if (folded == word) return text.size();
      if (!folded.ends_with(word) || text.size() < word.size()) continue;
      const std::string_view rest = trim(text.substr(0, text.size() - word.size()));
      if (find_unit(rest)) return text.size() - rest.size();
    }
    return 0;
  };
  const std::size_t plus = ends(words.plus), minus = ends(words.minus);
  text = trim(text.substr(0, text.size() - std::max(plus, minus)));
  return plus > minus ? 1 : minus > plus ? -1 : 0;
}

}  // namespace

std::string plain(std::string_view text) {
  static constexpr std::pair<std::string_view, std::string_view> kAlike[] = {
      {"\u00a0", " "}, {"\u2009", " "}, {"\u202f", " "}, {"\u2212", "-"}, {"\u2019", "'"}};
  std::string out(text);
  for (const auto& [found, instead] : kAlike) {
    for (std::size_t at = 0; (at = out.find(found, at)) != std::string::npos;) out.replace(at, found.size(), instead);
  }
  return out;
}

DecimalSign decimal_sign(std::string_view cell) {
  const std::string text = ungrouped(plain(cell));
  const std::string_view number = without_sign(cut(text).number);
  const std::string_view mantissa = number.substr(0, number.find_first_of("eE"));
  const auto point = mantissa.rfind('.'), comma = mantissa.rfind(',');
  const auto none = std::string_view::npos;
  if (point == none && comma == none) return DecimalSign::none;
  if (point != none && comma != none) return point > comma ? DecimalSign::point : DecimalSign::comma;
  if (point != none) return grouped(mantissa, '.') ? DecimalSign::either_point : DecimalSign::point;
  return grouped(mantissa, ',') ? DecimalSign::either_comma : DecimalSign::comma;
}

Cell read_cell(std::string_view cell, const ReadingWords& words, Dimension dimension, Decimal decimal) {
  const std::string text = ungrouped(plain(cell));
  auto [before, number, after] = cut(text);
  const auto problem = [&](std::string_view what) {
    return Cell{std::nullopt, nullptr, fmt::format("'{:.60}' {}", cell, what)};
  };
  if (!curly_quote(text).empty())
    return problem("has a curly quotation mark, as tablets make them; straight ones (\") are needed");
  if (number.empty()) return problem("is not a number");
  const auto digits = normal(number, decimal);
  const auto value = digits ? parse_number(*digits) : std::nullopt;
  if (!value) return problem("is not a number");

  const int sign_before = before.empty() ? 0 : take_sign_word(before, words);
  const int sign_after = after.empty() ? 0 : take_sign_word(after, words);
  if (!before.empty()) return problem("has text before its number that is neither a sign nor a side");
  Cell out{*value, nullptr, {}};
  if (!after.empty()) {
    out.unit = find_unit(after);
    if (!out.unit || out.unit->dimension != dimension) {
      return problem(fmt::format("has '{:.60}' after its number, which is no unit of {}", after, name_of(dimension)));
    }
  }
  if (sign_before != 0 || sign_after != 0) {
    if (sign_before * sign_after != 0) return problem("names a side twice");
    if (number.front() == '-' || number.front() == '+') return problem("has both a sign and a side");
    *out.value *= sign_before + sign_after;
  }
  return out;
}

}  // namespace loftwright
