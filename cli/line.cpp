#include "line.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <algorithm>

#include "core/disk.hpp"
#include "core/nearest.hpp"

namespace loftwright::cli {

namespace {

std::string dashed(std::string_view name) { return fmt::format("--{}", name); }

// A row of the table, and what CLI11 made of it.
struct DeclaredOption {
  const Option* row;
  const CLI::Option* parsed;
};

DeclaredOption declare(CLI::App& app, const Option& option) {
  const std::string name = dashed(option.name);
  CLI::Option* parsed = option.kind == Kind::flag ? app.add_flag(name) : app.add_option(name);
  return {&option, parsed->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)};
}

void collect(const DeclaredOption& declared, Typed& typed) {
  const auto& [row, parsed] = declared;
  const Option& option = *row;
  if (parsed->count() == 0) return;
  if (parsed->count() > 1 && !option.repeats) throw UsageError(fmt::format("--{} is given twice", option.name));
  for (const std::string& value : parsed->results()) {
    if (option.kind == Kind::flag) {
      if (value != "true") throw UsageError(fmt::format("--{} takes no value", option.name));
    } else if (value.starts_with("--")) {
      throw UsageError(fmt::format("--{} needs a value; '{}' stands in its place", option.name, value));
    }
    typed.emplace(option.name, value);
  }
}

using Places = std::map<std::string, CLI::App*, std::less<>>;

// Where a command is declared: "book add" is 'add' below 'book'.
CLI::App& place_of(std::string_view name, CLI::App& app, Places& places) {
  CLI::App*& place = places[std::string(name)];
  if (place) return *place;
  const std::size_t space = name.find(' ');
  const bool whole = space == std::string_view::npos;
  CLI::App& above = whole ? app : place_of(name.substr(0, space), app, places);
  place = above.add_subcommand(std::string(whole ? name : name.substr(space + 1)));
  place->set_help_flag();
  place->fallthrough();
  place->allow_extras();
  place->require_subcommand(0, 1);
  return *place;
}

// A file of that name whose blanks the shell took for ends of words: "Session 4.csv". "" when there is none.
std::string parted_name(const std::vector<std::string>& positionals, const std::vector<std::string>& rest) {
  if (positionals.empty()) return "";
  std::string name = positionals.back();
  for (const std::string& word : rest) {
    if (word.starts_with("--")) break;
    name += " " + word;
    if (seems_there(name)) return fmt::format("; there is a file '{}': put its name in quotes", name);
  }
  return "";
}

// Everything CLI11 could not place: a word too many, or a name it does not know.
[[noreturn]] void refuse(const std::vector<std::string>& rest, const Command* command, const std::string& group,
                         const std::vector<std::string>& positionals) {
  const auto unknown =
      std::find_if(rest.begin(), rest.end(), [](const std::string& arg) { return arg.starts_with('-'); });
  std::vector<std::string> known;
  if (unknown == rest.begin() && command) {
    const std::string name = unknown->substr(0, unknown->find('='));
    for (const Option* option : options_of(*command)) known.push_back(dashed(option->name));
    const std::string near = nearest(name, known);
    throw UsageError(fmt::format("'{}' has no option '{}'{}", command->name, name,
                                 may_be_meant(name, near) ? fmt::format("; the nearest is '{}'", near) : ""));
  }
  if (command) {
    throw UsageError(fmt::format("'{}' is one word too many for '{}'{}", rest.front(), command->name,
                                 parted_name(positionals, rest)));
  }
  for (const Command& c : commands()) {
    if (is_in_group(c, group)) known.emplace_back(c.name);
  }
  if (unknown != rest.begin()) {
    const std::string name = group.empty() ? rest.front() : fmt::format("{} {}", group, rest.front());
    throw UsageError(fmt::format("there is no command '{}'; the nearest is '{}'; commands: {}", name,
                                 nearest(name, known), fmt::join(known, ", ")));
  }
  throw UsageError(fmt::format("'{}' stands before any command; commands: {}", rest.front(), fmt::join(known, ", ")));
}

}  // namespace

struct LineParser::Declared {
  CLI::App app;
  Places places;  // by command and by group
  std::vector<DeclaredOption> common;
  std::map<const Command*, std::vector<DeclaredOption>> own;  // of those that were named
};

LineParser::~LineParser() = default;

LineParser::LineParser() : declared_(std::make_unique<Declared>()) {
  auto& [app, places, common, own] = *declared_;
  app.set_help_flag();
  app.allow_extras();
  app.require_subcommand(0, 1);
  for (const Option& option : common_options()) common.push_back(declare(app, option));
  for (const Command& command : commands()) {
    CLI::App& sub = place_of(command.name, app, places);
    // Once the command is named: all of all commands would take longer than a drive.
    sub.preparse_callback([&command, &sub, &all = own](std::size_t) {
      const auto [declared, first_time] = all.try_emplace(&command);
      if (!first_time) return;
      for (const auto& set : command.options) {
        for (const Option& option : set) declared->second.push_back(declare(sub, option));
      }
      for (const Positional& positional : command.positionals) {
        CLI::Option* words = sub.add_option(std::string(positional.value));
        if (positional.repeats) words->expected(-1)->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
      }
    });
  }
}

void LineParser::parse(const std::vector<std::string>& args, Line& line) {
  auto& [app, places, common, own] = *declared_;
  try {
    std::vector<std::string> reversed(args.rbegin(), args.rend());
    if (!reversed.empty() && reversed.back() == "help") {  // as many say it
      reversed.pop_back();
      if (std::find(args.begin(), args.end(), "--help") == args.end()) reversed.insert(reversed.begin(), "--help");
    }
    app.parse(reversed);
  } catch (const CLI::ArgumentMismatch&) {  // every option takes one value, so only the last word can lack it
    throw UsageError(fmt::format("{} needs a value", args.back()));
  } catch (const CLI::ParseError& error) {
    throw UsageError(error.what());
  }

  for (const Command& command : commands()) {
    if (places.find(command.name)->second->parsed()) line.command = &command;
  }
  for (const auto& [name, place] : places) {
    if (!line.command && place->parsed()) line.group = name;
  }
  for (const DeclaredOption& option : common) collect(option, line.typed);
  if (line.command) {
    const Command& command = *line.command;
    const CLI::App* sub = places.find(command.name)->second;
    for (const DeclaredOption& option : own[&command]) collect(option, line.typed);
    for (const Positional& positional : command.positionals) {
      for (const std::string& word : sub->get_option(std::string(positional.value))->results())
        line.positionals.push_back(word);
    }
  }
  const std::vector<std::string> rest = app.remaining(true);
  if (!rest.empty()) refuse(rest, line.command, line.group, line.positionals);
}

}  // namespace loftwright::cli
