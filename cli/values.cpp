// What was typed, checked against the table of options.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>

#include "core/nearest.hpp"
#include "core/text.hpp"
#include "loftwright/files/columns_file.hpp"
#include "options.hpp"
#include "shots/cells.hpp"

namespace loftwright::cli {

namespace {

std::string option_error(const Option& option, std::string_view what) {
  return fmt::format("--{}: {}", option.name, what);
}

std::optional<std::string_view> meaning_of(const Option& option, std::string_view text) {
  for (const Word& w : option.words) {
    if (w.word == text) return w.meaning;
  }
  return std::nullopt;
}

std::string list_of(std::span<const Word> words) {
  std::string out;
  for (const Word& w : words) out += fmt::format("{}{}", out.empty() ? "" : ", ", w.word);
  return out;
}

double quantity_of(const Option& option, std::string_view text);

bool is_allowed(const Option& option, double value) { return !option.range.known() || holds(option.range, value); }

// What a cell of a shot list would mean by it, with either sign for the decimals: "3 D", "82,5", "2 650". Throws
// UsageError when both are allowed and differ. Empty: it is no such number.
std::optional<double> as_in_lists(const Option& option, std::string_view text) {
  std::string key(option.name);
  std::replace(key.begin(), key.end(), '-', '_');
  static const ColumnMap words = built_in_columns();
  const auto reading = find_reading(key);
  const ReadingWords none, &own = reading ? words.readings[*reading] : none;
  const auto read = [&](Decimal decimal) -> std::optional<double> {
    const Cell cell = read_cell(text, own, option.dimension, decimal);
    if (!cell.value) return std::nullopt;
    return (cell.unit ? *cell.unit : unit(option.unit)).to_si(*cell.value);
  };
  const auto point = read(Decimal::point), comma = read(Decimal::comma);
  const bool points = point && is_allowed(option, *point), commas = comma && is_allowed(option, *comma);
  if (points && commas && *point != *comma) {
    const auto shown = [&](double si) { return fmt::format("{:.10g} {}", unit(option.unit).from_si(si), option.unit); };
    throw UsageError(option_error(
        option,
        fmt::format("'{}' may be {} with decimal point or {} with decimal comma; write it without the sign that "
                    "groups thousands",
                    text, shown(*point), shown(*comma))));
  }
  return points ? point : commas ? comma : point ? point : comma;
}

double quantity_of(const Option& option, std::string_view text) {
  if (const auto meaning = meaning_of(option, text)) text = *meaning;
  const bool ambiguous = decimal_sign(text) == DecimalSign::either_point;
  try {
    const double value = parse_quantity(fmt::format("--{}", option.name), text, option.dimension, option.unit);
    if (ambiguous) as_in_lists(option, text);
    return value;
  } catch (const InputError& error) {
    if (const auto value = as_in_lists(option, text)) return *value;
    const bool has_sign = text.starts_with('-') || text.starts_with('+');
    if (has_sign && as_in_lists(option, text.substr(1)))
      throw UsageError(option_error(option, fmt::format("'{}' has both a sign and a side", text)));
    const std::string words = option.words.empty() ? "" : fmt::format("; or one of {}", list_of(option.words));
    throw UsageError(error.what() + words);
  }
}

long integer_of(const Option& option, std::string_view text) {
  long value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) {
    throw UsageError(option_error(option, fmt::format("'{}' is not a whole number", text)));
  }
  return value;
}

std::uint64_t seed_of(const Option& option, std::string_view text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc{} && end == text.data() + text.size()) return value;
  const std::string_view digits = text.starts_with('-') ? text.substr(1) : text;
  if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos) {
    throw UsageError(option_error(option, fmt::format("'{}' is not a whole number", text)));
  }
  throw InputError(option_error(option, fmt::format("'{}' is out of range; allowed: {}", text, range_words(option))));
}

Day day_of(const Option& option, std::string_view text) {
  std::optional<Day> day;
  try {
    day = parse_day(text);
  } catch (const InputError& error) {
    throw InputError(option_error(option, error.what()));
  }
  if (!day) throw UsageError(option_error(option, fmt::format("'{}' is not a day written as YYYY-MM-DD", text)));
  return *day;
}

void check_value(const Option& option, const std::string& text) {
  switch (option.kind) {
    case Kind::flag: return;
    case Kind::text:
    case Kind::file:
    case Kind::folder:
    case Kind::ball:
    case Kind::head:
    case Kind::turf:
      if (text.empty()) throw UsageError(option_error(option, "the value is empty"));
      return;
    case Kind::word:
      if (!meaning_of(option, text)) {
        throw UsageError(option_error(option, fmt::format("'{}' is not one of {}", text, list_of(option.words))));
      }
      return;
    case Kind::day: day_of(option, text); return;
    case Kind::seed: seed_of(option, text); return;
    case Kind::integer:
    case Kind::quantity: {
      const double value =
          option.kind == Kind::integer ? static_cast<double>(integer_of(option, text)) : quantity_of(option, text);
      if (!is_allowed(option, value)) {
        throw InputError(
            option_error(option, fmt::format("'{}' is out of range; allowed: {}", text, range_words(option))));
      }
    }
  }
}

std::string bound_words(const Option& option, double end, bool is_low) {
  if (option.kind == Kind::integer) return fmt::format("{}", std::llround(end));
  const double si = option.range.unit.empty() ? end : unit(option.range.unit).to_si(end);
  return range_end(option.unit.empty() ? si : unit(option.unit).from_si(si), is_low);
}

}  // namespace

std::string range_words(const Option& option) {
  if (option.kind == Kind::seed) return fmt::format("0 to {}", std::numeric_limits<std::uint64_t>::max());
  if (!option.range.known()) return "";
  const std::string ends = fmt::format("{} to {}", bound_words(option, option.range.low, true),
                                       bound_words(option, option.range.high, false));
  return option.unit.empty() ? ends : fmt::format("{} {}", ends, option.unit);
}

std::string usage_of(const Positional& positional) {
  const std::string shown = fmt::format("{}{}", positional.value, positional.repeats ? "..." : "");
  return positional.unless.empty() ? shown : fmt::format("[{}]", shown);
}

Values::Values(const Command& command, Typed typed, std::vector<std::string> positionals)
    : command_(command), typed_(std::move(typed)), positionals_(std::move(positionals)) {
  for (const Option* option : options_of(command)) {
    const bool other = !option->excludes.empty() && given(option->excludes);
    if (option->required && !given(option->name) && !other) {
      const std::string or_that = option->excludes.empty() ? "" : fmt::format(" (or --{})", option->excludes);
      throw UsageError(fmt::format("--{}{} is missing: {}", option->name, or_that, option->help));
    }
    if (!given(option->name)) continue;
    if (!option->needs.empty() && !given(option->needs)) {
      throw UsageError(fmt::format("--{} needs --{} beside it", option->name, option->needs));
    }
    if (other) {
      throw UsageError(fmt::format("--{} and --{} exclude each other: give one", option->name, option->excludes));
    }
  }
  for (std::size_t i = 0; i < command.positionals.size(); ++i) {
    const Positional& positional = command.positionals[i];
    if (i < positionals_.size() && !positionals_[i].empty()) continue;
    if (positional.unless.empty() || !given(positional.unless))
      throw UsageError(fmt::format("{} is missing: {}", positional.value, positional.help));
  }
  positionals_.resize(std::max(positionals_.size(), command.positionals.size()));
  // How the line is written first, what its values say after: a usage error is not hidden behind a value.
  std::optional<InputError> out_of_range;
  for (const auto& [name, text] : typed_) {
    try {
      check_value(find(name), text);
    } catch (const InputError& error) {
      if (!out_of_range) out_of_range = error;
    }
  }
  if (out_of_range) throw InputError(*out_of_range);
}

Values Values::with(std::string_view option, std::string_view changes, std::span<const std::string_view> groups) const {
  Typed typed = typed_;
  std::vector<std::string> known;
  for (const auto& set : command_.options) {
    for (const Option& o : set) {
      const bool may = groups.empty() || std::find(groups.begin(), groups.end(), o.group) != groups.end();
      const bool its_own = o.name == option || o.needs == option;
      if (its_own) typed.erase(std::string(o.name));
      if (may && !its_own) known.emplace_back(o.name);
    }
  }
  std::vector<std::string> seen;
  while (true) {
    const std::size_t start = changes.find_first_not_of(" ,");
    if (start == std::string_view::npos) break;
    changes.remove_prefix(start);
    std::size_t end = changes.find_first_of(" ,");
    const auto digit_at = [&](std::size_t at) {
      return at < changes.size() && changes[at] >= '0' && changes[at] <= '9';
    };
    while (end != std::string_view::npos && changes[end] == ',' && digit_at(end + 1)) {  // a decimal comma
      end = changes.find_first_of(" ,", end + 1);
    }
    const std::string_view pair = changes.substr(0, end);
    changes.remove_prefix(pair.size());
    const std::size_t equals = pair.find('=');
    const std::string name(pair.substr(0, equals));
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      throw UsageError(
          fmt::format("--{}: there is no '{}' to change; the nearest is '{}'", option, name, nearest(name, known)));
    }
    if (equals == std::string_view::npos || equals + 1 == pair.size()) {
      throw UsageError(fmt::format("--{}: '{}' needs a value, as in {}=VALUE", option, name, name));
    }
    if (std::find(seen.begin(), seen.end(), name) != seen.end())
      throw UsageError(fmt::format("--{}: '{}' is given twice", option, name));
    seen.push_back(name);
    typed.erase(name);
    typed.emplace(name, pair.substr(equals + 1));
  }
  if (seen.empty()) throw UsageError(fmt::format("--{} names no change, as in \"attack=2deg\"", option));
  return Values(command_, std::move(typed), positionals_);
}

double Values::quantity(std::string_view name) const { return quantity_of(find(name), typed_or_default(name)); }

long Values::integer(std::string_view name) const { return integer_of(find(name), typed_or_default(name)); }

std::uint64_t Values::seed(std::string_view name) const { return seed_of(find(name), typed_or_default(name)); }

Day Values::day(std::string_view name) const { return day_of(find(name), typed_or_default(name)); }

std::string Values::text(std::string_view name) const { return typed_or_default(name); }

std::vector<std::string> Values::texts(std::string_view name) const {
  std::vector<std::string> out;
  for (auto [at, end] = typed_.equal_range(find(name).name); at != end; ++at) out.push_back(at->second);
  return out;
}

const Option& Values::find(std::string_view name) const {
  for (const Option* option : options_of(command_)) {
    if (option->name == name) return *option;
  }
  throw std::logic_error(fmt::format("'{}' has no option --{}", command_.name, name));
}

std::string Values::typed_or_default(std::string_view name) const {
  const auto at = typed_.find(name);
  if (at != typed_.end()) return at->second;
  const Option& option = find(name);
  if (option.fallback.empty()) throw std::logic_error(fmt::format("--{} was not given and has no default", name));
  return std::string(option.fallback);
}

}  // namespace loftwright::cli
