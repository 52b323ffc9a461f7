#include "help.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "commands.hpp"
#include "layout.hpp"

namespace loftwright::cli {

namespace {

constexpr std::size_t kHelpColumn = 28;

constexpr std::array kExitCodes{
    ExitCode{kDone, "done"},
    ExitCode{kNo, "computed, and the answer is no (limits that cannot all be met; no real difference)"},
    ExitCode{kUsage, "the command line is not understood"},
    ExitCode{kInput, "a value, file or data set that cannot be"},
    ExitCode{kInternal, "a mistake inside the program, or an answer that could not be written"},
};

std::string entry(std::string_view left, std::string_view right) {
  const std::string head = fmt::format("  {:<{}}", left, kHelpColumn - 2);
  if (head.size() <= kHelpColumn) return wrapped(right, head);
  return head + "\n" + wrapped(right, std::string(kHelpColumn, ' '));
}

std::string option_entry(const Option& option) {
  const std::string left =
      option.value.empty() ? fmt::format("--{}", option.name) : fmt::format("--{} {}", option.name, option.value);
  const std::string small = fine_print(option);
  return entry(left, std::string(option.help) + (small.empty() ? "" : " (" + small + ")"));
}

std::string first_example(const Command& command) { return as_typed(command.examples.front().args) + "\n"; }

std::string examples_of(std::span<const Example> examples) {
  std::string out;
  for (const Example& e : examples) out += fmt::format("{}\n      {}\n", as_typed(e.args), e.says);
  return out;
}

}  // namespace

std::string as_typed(std::string_view args) {
  std::string line = fmt::format("  loftwright {}", args), out;
  while (line.size() > kColumns) {
    constexpr std::size_t kIndent = 6;
    std::size_t at = line.rfind(" --", kColumns - 2);
    if (at == std::string::npos || at < kIndent) at = line.rfind(' ', kColumns - 2);
    out += fmt::format("{} \\\n", line.substr(0, at));
    line = fmt::format("      {}", line.substr(at + 1));
  }
  return out + line;
}

std::string fine_print(const Option& option) {
  std::vector<std::string> parts;
  const bool either = option.required && !option.excludes.empty();
  if (option.required)
    parts.push_back(either ? fmt::format("this or --{} must be given", option.excludes) : "must be given");
  if (const std::string range = range_words(option); !range.empty()) parts.push_back(range);
  if (!option.fallback.empty()) parts.push_back(fmt::format("default {}", option.fallback));
  if (option.repeats) parts.push_back("may be repeated");
  if (!option.needs.empty()) parts.push_back(fmt::format("with --{}", option.needs));
  if (!option.excludes.empty() && !either) parts.push_back(fmt::format("not with --{}", option.excludes));
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::span<const ExitCode> exit_codes() { return kExitCodes; }

std::string help_overview() {
  std::string names, common, first, codes;
  for (const Command& c : commands()) names += entry(c.name, c.summary);
  for (const Option& option : common_options()) common += option_entry(option);
  std::string_view shown;  // one example does for a group
  for (const Command& c : commands()) {
    const std::string_view word = c.name.substr(0, c.name.find(' '));
    if (word != shown) first += first_example(c);
    shown = word;
  }
  for (const ExitCode& e : kExitCodes) codes += entry(std::to_string(e.code), e.meaning);
  const std::string parts[] = {wrapped(fmt::format("loftwright: {}", kQuestion)),
                               "loftwright COMMAND [OPTIONS]\nloftwright COMMAND --help\n",
                               section("Commands", names),
                               section("Start here", first),
                               section("Common to all commands", common),
                               wrapped(kQuantities),
                               section("Exit codes", codes)};
  return fmt::format("{}", fmt::join(parts, "\n"));
}

std::string help_for_group(std::string_view group) {
  std::string names, first;
  for (const Command& c : commands()) {
    if (!is_in_group(c, group)) continue;
    names += entry(c.name, c.summary);
    first += first_example(c);
  }
  const std::string parts[] = {fmt::format("loftwright {0} COMMAND [OPTIONS]\nloftwright {0} COMMAND --help\n", group),
                               section("Commands", names), section("Start here", first)};
  return fmt::format("{}", fmt::join(parts, "\n"));
}

std::string help_for(const Command& command) {
  std::string words, entries_of_words;
  for (const Positional& positional : command.positionals) {
    words += fmt::format(" {}", usage_of(positional));
    entries_of_words += entry(positional.value, positional.help);
  }
  std::vector<std::string> parts{wrapped(fmt::format("loftwright {}: {}", command.name, command.summary)),
                                 fmt::format("loftwright {}{} [OPTIONS]\n", command.name, words),
                                 wrapped(command.description), section("Examples", examples_of(command.examples))};
  if (!words.empty()) parts.push_back(entries_of_words);
  const std::vector<const Option*> options = options_of(command);
  for (auto at = options.begin(); at != options.end();) {
    const std::string_view group = (*at)->group;
    std::string entries;
    for (; at != options.end() && (*at)->group == group; ++at) entries += option_entry(**at);
    parts.push_back(section(group, entries));
  }
  if (!command.signs.empty()) parts.push_back(section("Signs", wrapped(command.signs, "  ")));
  return fmt::format("{}", fmt::join(parts, "\n"));
}

}  // namespace loftwright::cli
