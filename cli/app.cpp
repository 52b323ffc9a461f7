#include "app.hpp"

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <fmt/format.h>
#include <istream>
#include <optional>
#include <ostream>

#include "commands.hpp"
#include "help.hpp"
#include "layout.hpp"
#include "loftwright/core/nearest.hpp"

namespace loftwright::cli {

namespace {

struct Line {
  const Command* command = nullptr;  // none: no command was named
  Typed typed;
  std::string positional;
};

std::string dashed(std::string_view name) { return fmt::format("--{}", name); }

void declare(CLI::App& app, const Option& option) {
  if (option.kind == Kind::flag) {
    app.add_flag(dashed(option.name))->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  } else {
    app.add_option(dashed(option.name))->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  }
}

void collect(const CLI::App& app, const Option& option, Typed& typed) {
  const CLI::Option* parsed = app.get_option(dashed(option.name));
  if (parsed->count() == 0) return;
  if (parsed->count() > 1) throw UsageError(fmt::format("--{} is given twice", option.name));
  const std::string& value = parsed->results().front();
  if (option.kind == Kind::flag) {
    if (value != "true") throw UsageError(fmt::format("--{} takes no value", option.name));
  } else if (value.starts_with("--")) {
    throw UsageError(fmt::format("--{} needs a value; '{}' stands in its place", option.name, value));
  }
  typed[std::string(option.name)] = value;
}

// Everything CLI11 could not place: a word too many, or a name it does not know.
[[noreturn]] void refuse(const std::vector<std::string>& rest, const Command* command) {
  const auto unknown = std::find_if(rest.begin(), rest.end(), [](const std::string& arg) { return arg.starts_with('-'); });
  std::vector<std::string> known;
  if (unknown == rest.begin() && command) {
    const std::string name = unknown->substr(0, unknown->find('='));
    for (const Option* option : options_of(*command)) known.push_back(dashed(option->name));
    throw UsageError(fmt::format("'{}' has no option '{}'; the nearest is '{}'", command->name, name, nearest(name, known)));
  }
  if (command) throw UsageError(fmt::format("'{}' is one word too many for '{}'", rest.front(), command->name));
  for (const Command& c : commands()) known.emplace_back(c.name);
  if (unknown != rest.begin()) {
    throw UsageError(fmt::format("there is no command '{}'; the nearest is '{}'; commands: {}", rest.front(),
                                 nearest(rest.front(), known), fmt::join(known, ", ")));
  }
  throw UsageError(fmt::format("'{}' stands before any command; commands: {}", rest.front(), fmt::join(known, ", ")));
}

void parse(const std::vector<std::string>& args, Line& line) {
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  app.require_subcommand(0, 1);
  for (const Option& option : common_options()) declare(app, option);
  for (const Command& command : commands()) {
    CLI::App* sub = app.add_subcommand(std::string(command.name));
    sub->set_help_flag();
    sub->fallthrough();
    sub->allow_extras();
    for (const auto& set : command.options) {
      for (const Option& option : set) declare(*sub, option);
    }
    if (!command.positional.value.empty()) sub->add_option(std::string(command.positional.value));
  }
  try {
    app.parse(std::vector<std::string>(args.rbegin(), args.rend()));
  } catch (const CLI::ArgumentMismatch&) {  // every option takes one value, so only the last word can lack it
    throw UsageError(fmt::format("{} needs a value", args.back()));
  } catch (const CLI::ParseError& error) {
    throw UsageError(error.what());
  }

  for (const Command& command : commands()) {
    if (app.got_subcommand(std::string(command.name))) line.command = &command;
  }
  for (const Option& option : common_options()) collect(app, option, line.typed);
  if (line.command) {
    const Command& command = *line.command;
    const CLI::App* sub = app.get_subcommand(std::string(command.name));
    for (const auto& set : command.options) {
      for (const Option& option : set) collect(*sub, option, line.typed);
    }
    if (!command.positional.value.empty()) {
      const auto& files = sub->get_option(std::string(command.positional.value))->results();
      if (!files.empty()) line.positional = files.front();
    }
  }
  const std::vector<std::string> rest = app.remaining(true);
  if (!rest.empty()) refuse(rest, line.command);
}

Catalogue catalogue_for(const Values& values) {
  if (values.given("data")) return Catalogue(values.text("data"));
  const char* folder = std::getenv("LOFTWRIGHT_DATA");
  return folder && *folder ? Catalogue(folder) : Catalogue();
}

int answer(const Line& line, std::istream& in, std::ostream& out, std::ostream& err) {
  if (line.typed.contains("version")) {
    out << "loftwright " LOFTWRIGHT_VERSION "\n";
    return kDone;
  }
  if (line.typed.contains("help")) {
    out << (line.command ? help_for(*line.command) : help_overview());
    return kDone;
  }
  if (!line.command) {
    err << help_overview();
    return kUsage;
  }
  const Values values(*line.command, line.typed, line.positional);
  const Session session{values,
                        catalogue_for(values),
                        values.text("units") == "yards" ? UnitSystem::yards : UnitSystem::metres,
                        values.given("json"),
                        values.given("quiet"),
                        in,
                        out,
                        err};
  return line.command->run(session);
}

}  // namespace

int run(const std::vector<std::string>& args, std::istream& in, std::ostream& out, std::ostream& err) {
  Line line;
  const auto who = [&] { return line.command ? fmt::format("loftwright {}", line.command->name) : std::string("loftwright"); };
  try {
    parse(args, line);
    const int code = answer(line, in, out, err);
    if (!out.flush()) throw std::runtime_error("the answer could not be written");
    return code;
  } catch (const UsageError& error) {
    err << who() << ": " << printable(error.what()) << "\nTry '" << who() << " --help'.\n";
    return kUsage;
  } catch (const InputError& error) {
    err << who() << ": " << printable(error.what()) << "\n";
    return kInput;
  } catch (const std::exception& error) {
    err << who() << ": internal error: " << error.what() << "\n";
    return kInternal;
  } catch (...) {
    err << who() << ": internal error\n";
    return kInternal;
  }
}

}  // namespace loftwright::cli
