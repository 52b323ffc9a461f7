// The one table of commands and options. Parsing, --help, docs/cli.md, the manual page and completion in shells read
// it; a new option is a new row, a new command a new row and a function.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/book/day.hpp"
#include "loftwright/core/quantity.hpp"

namespace loftwright::cli {

struct Session;

// The command line itself is malformed: exit 2. A well-formed value that cannot be is an InputError: exit 3.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

enum class Kind {
  flag,      // stands alone
  quantity,  // a number with or without a unit; maybe a word that stands for one
  word,      // one of a list
  integer,
  seed,  // a whole number of 64 bits
  day,   // of the calendar, YYYY-MM-DD
  text,
  file,  // a path
  folder,
  ball,  // the id of a model, or the path of a file that ends in .json
  head,
  turf,
};

struct Word {
  std::string_view word;
  std::string_view meaning = "";  // of a quantity: what to read instead
};

struct Option {
  std::string_view name;        // without dashes
  std::string_view value = "";  // what help calls the value: "SPEED"
  std::string_view help = "";   // one sentence in a coach's words, without its full stop
  std::string_view group = "";  // heading in help
  Kind kind = Kind::quantity;
  Dimension dimension = Dimension::length;
  std::string_view unit = "";      // of a bare number
  Range range{};                   // of a number; not known(): no bound
  std::string_view fallback = "";  // as typed; empty: none
  std::span<const Word> words = {};
  bool required = false;           // with `excludes`: this or that one
  std::string_view needs = "";     // an option without which this one says nothing
  std::string_view excludes = "";  // an option this one cannot stand beside
  bool repeats = false;            // may be given more than once; read with Values::texts
};

// The option for a quantity: what its row does not say comes from the table (core/quantity.hpp).
constexpr Option option_for(Quantity quantity, Option row) {
  const QuantityInfo& q = about(quantity);
  row.dimension = q.dimension;
  row.unit = q.typed;
  if (row.help.empty()) row.help = q.meaning;
  if (!row.range.known()) row.range = q.allowed;
  return row;
}

// What a command takes besides options: a file. It must be given.
struct Positional {
  std::string_view value;  // "FILE"
  std::string_view help;
  bool repeats = false;          // one or more; the last of them
  std::string_view unless = "";  // an option with which it may be left out, as the last one
};

struct Example {
  std::string_view args;  // as typed after "loftwright "
  std::string_view says;
};

struct Command {
  std::string_view name;                             // of two words when it belongs to a group: "book add"
  std::string_view summary;                          // for the list of commands
  std::string_view description;                      // paragraphs for its own help
  std::string_view signs;                            // sign conventions, where they matter
  std::span<const Positional> positionals;           // in the order they are typed
  std::span<const std::span<const Option>> options;  // without the common ones
  std::span<const Example> examples;
  int (*run)(const Session&);
};

// What a drive happens under: the club and the ball, turf and weather.
inline constexpr std::string_view kPlayerGroup = "Player and club";
inline constexpr std::string_view kCourseGroup = "Ball, turf and weather";

std::span<const Command> commands();
bool is_in_group(const Command& command, std::string_view group);  // "book add" is in "book"; every command is in ""
std::span<const Option> common_options();                          // of every command

// A command's own options in the order of help, then the common ones.
std::vector<const Option*> options_of(const Command& command);

// "20.2 to 161 mph", in the option's own unit and rounded inwards; empty when unbounded.
std::string range_words(const Option& option);

// "FILE", "LIST..." where it repeats, "[FILE]" where it may be left out.
std::string usage_of(const Positional& positional);

// What was typed: option name -> text ("" for a flag), those of an option that repeats in the order typed.
using Typed = std::multimap<std::string, std::string, std::less<>>;

// Typed values, checked against the table. Asking for an option the command does not have is a logic error.
class Values {
 public:
  // Throws UsageError (not a quantity, wrong dimension, not a listed word, something missing) or InputError (out of
  // range).
  Values(const Command& command, Typed typed, std::vector<std::string> positionals);

  // The same command line without `option` and what needs it, changed by its text: "name=value name=value". Only
  // options of these groups may change (none named: of any). Throws as the constructor does.
  Values with(std::string_view option, std::string_view changes, std::span<const std::string_view> groups = {}) const;

  const Command& command() const { return command_; }
  bool given(std::string_view name) const { return typed_.contains(name); }
  double quantity(std::string_view name) const;  // [SI] as typed, else the default
  long integer(std::string_view name) const;
  std::uint64_t seed(std::string_view name) const;
  Day day(std::string_view name) const;
  std::string text(std::string_view name) const;                // words too
  std::vector<std::string> texts(std::string_view name) const;  // of an option that repeats; empty: not given
  const std::string& positional(std::size_t index = 0) const { return positionals_.at(index); }  // "": left out
  const std::vector<std::string>& positionals() const { return positionals_; }

 private:
  const Option& find(std::string_view name) const;
  std::string typed_or_default(std::string_view name) const;

  const Command& command_;
  Typed typed_;
  std::vector<std::string> positionals_;
};

}  // namespace loftwright::cli
