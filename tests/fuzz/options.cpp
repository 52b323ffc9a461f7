// A command line, a word a line, as far as the values a command would be given. No command is run.
#include <cmath>

#include "help.hpp"
#include "layout.hpp"
#include "line.hpp"
#include "loftwright/core/error.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::cli;
using namespace loftwright::fuzz;

namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  while (!text.empty()) out.emplace_back(take(text, "\n"));
  return out;
}

void read_all(const Command& command, const Values& values) {
  for (const Option* option : options_of(command)) {
    const std::string_view name = option->name;
    if (option->kind == Kind::flag || (!values.given(name) && option->fallback.empty())) continue;
    switch (option->kind) {
      case Kind::quantity: must(std::isfinite(values.quantity(name)), "a quantity is finite"); break;
      case Kind::integer: values.integer(name); break;
      case Kind::day: must(values.day(name).ok(), "a day is one of the calendar"); break;
      default: must(!values.text(name).empty(), "a text is not empty");
    }
    must(values.texts(name).size() == values.given(name) || option->repeats,
         "an option that does not repeat stands once");
  }
  for (std::size_t i = 0; i < command.positionals.size(); ++i)
    must(!values.positional(i).empty() || values.given(command.positionals[i].unless), "what a command takes is there");
  for (const std::string_view changes : {"changed", "versus"}) {
    if (values.given(changes)) read_all(command, values.with(changes, values.text(changes)));
  }
}

}  // namespace

LOFTWRIGHT_FUZZ_TARGET(options)(const std::uint8_t* data, std::size_t size) {
  static LineParser parser;
  Line line;
  try {
    parser.parse(words_of(text_of(data, size)), line);
    if (!line.command) return 0;
    read_all(*line.command, Values(*line.command, line.typed, line.positionals));
  } catch (const UsageError& error) {
    must(!printable(error.what()).empty(), "an error says something");
  } catch (const InputError& error) {
    must(!printable(error.what()).empty(), "an error says something");
  }
  return 0;
}
