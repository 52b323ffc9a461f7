#include "manual.hpp"

#include <fmt/format.h>

#include "help.hpp"
#include "loftwright/report/words.hpp"
#include "loftwright/version.hpp"

namespace loftwright::cli {

namespace {

// Text that roff shows as it stands: every hyphen one that can be searched for and typed.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '\\': out += "\\e"; break;
      case '-': out += "\\-"; break;
      case '\'': out += "\\(aq"; break;
      case '`': out += "\\(ga"; break;
      case '^': out += "\\(ha"; break;
      case '~': out += "\\(ti"; break;
      case '.': out += out.empty() ? "\\&." : "."; break;  // a line's first would be a command
      default: out += c;
    }
  }
  return out;
}

constexpr std::string_view kParagraph = ".PP\n";

std::string paragraph(std::string_view text) {
  return text.empty() ? "" : fmt::format("{}{}\n", kParagraph, plain(text));
}

std::string part(std::string_view title, std::string_view body) {
  if (body.starts_with(kParagraph)) body.remove_prefix(kParagraph.size());  // a heading begins one
  return fmt::format(".SH {}\n{}", title, body);
}

// What is explained, in bold and after it in italics, above its explanation.
std::string item(std::string_view bold, std::string_view italic, std::string_view text) {
  return fmt::format(".TP\n\\fB{}\\fR{}\\fI{}\\fR\n{}\n", plain(bold), italic.empty() ? "" : " ", plain(italic),
                     plain(text));
}

std::string option_item(const Option& option) {
  const std::string small = fine_print(option);
  return item(fmt::format("--{}", option.name), option.value,
              fmt::format("{}{}.", option.help, small.empty() ? "" : fmt::format(" ({})", small)));
}

std::string command_part(const Command& command) {
  std::string usage = fmt::format("\\fBloftwright {}\\fR", command.name), positionals, options, examples;
  for (const Positional& p : command.positionals) {
    usage += fmt::format(" \\fI{}\\fR", usage_of(p));
    positionals += item("", p.value, fmt::format("{}.", p.help));
  }
  for (const auto& set : command.options) {
    for (const Option& option : set) options += option_item(option);
  }
  for (const Example& e : command.examples) examples += fmt::format("{}\n", plain(as_typed(e.args)));
  return fmt::format(".SS {}\n{} [\\fIOPTIONS\\fR]\n{}{}{}{}.PP\n.EX\n{}.EE\n", command.name, usage,
                     paragraph(command.description), positionals, options, paragraph(command.signs), examples);
}

}  // namespace

std::string manual_page() {
  std::string common, commands_part, codes, care;
  for (const Command& c : commands()) commands_part += command_part(c);
  for (const Option& option : common_options()) common += option_item(option);
  for (const ExitCode& e : exit_codes()) codes += item(std::to_string(e.code), "", e.meaning);
  for (const std::string& sentence : cautions(UnitSystem::yards)) care += paragraph(sentence);
  const std::string parts[] = {
      fmt::format(".TH LOFTWRIGHT 1 \"\" \"loftwright {}\" \"User Commands\"\n", kVersion),
      part("NAME", "loftwright \\- technique or loft: where a golfer\\(aqs yards are, and how sure that is\n"),
      part("SYNOPSIS", "\\fBloftwright\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR]\n"),
      part("DESCRIPTION",
           paragraph(fmt::format("For a golf coach with a pupil: {}", kQuestion)) + paragraph(kQuantities)),
      part("COMMANDS", commands_part),
      part("OPTIONS OF EVERY COMMAND", common),
      part("EXIT STATUS", codes),
      part("ENVIRONMENT", item("LOFTWRIGHT_DATA", "", "What --data is where that is not given.")),
      part("CARE", care)};
  return fmt::format("{}", fmt::join(parts, ""));
}

}  // namespace loftwright::cli
