// The manual page and completion in shells: what they offer is what the program takes.
#include <catch2/catch.hpp>
#include <set>

#include "folders.hpp"
#include "options.hpp"
#include "process.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

using Offered = std::set<std::string>;

const std::filesystem::path kManual = LOFTWRIGHT_BINARY_DIR "/cli/manual";

// The lines that a shell writes, run in a folder of its own that holds pupil.json and a folder mine.
Offered lines_from(const std::string& shell, const std::string& script) {
  const ScratchFolder folder, said;
  const auto out_file = said.path() / "out", err_file = said.path() / "err";
  folder.write("pupil.json", "");
  std::filesystem::create_directory(folder.path() / "mine");
  const std::string command =
      fmt::format("cd {} && {} -c {} >{} 2>{} </dev/null", shell_quoted(folder.path().string()), shell,
                  shell_quoted(script), shell_quoted(out_file.string()), shell_quoted(err_file.string()));
  const int status = std::system(command.c_str());
  INFO(script << "\n" << file_contents(err_file));
  CHECK(status == 0);
  CHECK(file_contents(err_file).empty());
  std::istringstream lines(file_contents(out_file));
  Offered out;
  for (std::string line; std::getline(lines, line);)
    out.insert(line.substr(0, line.find('\t')));  // fish: a tab, then what it is
  return out;
}

// What bash offers for the last word of a line, parted into words as bash does it.
Offered in_bash(const std::string& words) {
  return lines_from(
      "bash --norc",
      fmt::format("source {}; compopt() {{ :; }}; COMP_WORDS=(loftwright {}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); "
                  "_loftwright; printf '%s\\n' \"${{COMPREPLY[@]}}\"",
                  shell_quoted((kManual / "loftwright.bash").string()), words));
}

Offered in_fish(const std::string& line) {
  return lines_from("fish --no-config",
                    fmt::format("source {}; complete -C {}", shell_quoted((kManual / "loftwright.fish").string()),
                                shell_quoted("loftwright " + line)));
}

Offered options_of_command(const cli::Command& command) {
  Offered out;
  for (const cli::Option* o : cli::options_of(command)) out.insert(fmt::format("--{}", o->name));
  return out;
}

const Offered kBookCommands{"add", "edit", "list", "history", "remove", "undo", "export"};
const Offered kFiles{"mine", "pupil.json"};

Offered first_words() {
  Offered out;
  for (const cli::Command& c : cli::commands()) out.emplace(c.name.substr(0, c.name.find(' ')));
  return out;
}

bool holds(const Offered& offered, const Offered& some) {
  return std::includes(offered.begin(), offered.end(), some.begin(), some.end());
}

}  // namespace

TEST_CASE("bash completes commands, options, words and files") {
  CHECK(holds(in_bash("''"), first_words()));
  CHECK(holds(in_bash("''"), {"advise", "book", "--units"}));
  CHECK(in_bash("'ch'") == Offered{"chart", "check"});
  CHECK(holds(in_bash("book ''"), kBookCommands));
  CHECK_FALSE(holds(in_bash("book ''"), {"fly"}));
  CHECK(in_bash("--units metres book r") == Offered{"remove"});
  CHECK(holds(in_bash("strike --turf ''"), {"firm", "medium", "soft", "mine", "pupil.json"}));
  CHECK(in_bash("strike --turf = ''") == in_bash("strike --turf ''"));
  CHECK(in_bash("strike --turf =") == in_bash("strike --turf ''"));
  CHECK(in_bash("fly --ball re") == Offered{"reference"});
  CHECK(in_bash("fly --wind-from be") == Offered{"behind"});
  CHECK(in_bash("--units ''") == Offered{"yards", "metres"});
  CHECK(in_bash("fly --data ''") == Offered{"mine"});
  CHECK(in_bash("advise ''") == kFiles);
  CHECK(in_bash("book add ''") == kFiles);
  CHECK(in_bash("advise pupil.json --html p") == Offered{"pupil.json"});
  CHECK(in_bash("fly --spin ''") == Offered{""});  // a number is the user's
  CHECK(in_bash("fly 'p'") == Offered{""});
  for (const cli::Command& c : cli::commands()) {
    INFO(c.name);
    CHECK(in_bash(fmt::format("{} --", c.name)) == options_of_command(c));
  }
}

TEST_CASE("fish completes the same") {
  if (std::system("command -v fish >/dev/null") != 0) {
    WARN("fish is missing: not checked");
    return;
  }
  CHECK(in_fish("") == first_words());
  CHECK(in_fish("book ") == kBookCommands);
  CHECK(in_fish("fly --ball re") == Offered{"reference"});
  CHECK(holds(in_fish("strike --turf "), {"firm", "medium", "soft", "mine/", "pupil.json"}));
  CHECK(in_fish("--units ") == Offered{"yards", "metres"});
  CHECK(in_fish("fly --data ") == Offered{"mine/"});
  CHECK(in_fish("advise ") == Offered{"mine/", "pupil.json"});
  CHECK(in_fish("book add pu") == Offered{"pupil.json"});
  for (const cli::Command& c : cli::commands()) {
    INFO(c.name);
    CHECK(in_fish(fmt::format("{} --", c.name)) == options_of_command(c));
  }
}

TEST_CASE("the manual page has every command and option") {
  const std::string page = file_contents(kManual / "loftwright.1");
  std::size_t from = 0;
  const auto next = [&](const std::string& text) {
    INFO(text);
    const std::size_t at = page.find(text, from);
    REQUIRE(at != std::string::npos);
    from = at;
  };
  for (const cli::Command& c : cli::commands()) {
    next(fmt::format(".SS {}\n", c.name));
    const auto all = cli::options_of(c);
    for (std::size_t i = 0; i + cli::common_options().size() < all.size(); ++i) {
      std::string name = fmt::format("--{}", all[i]->name);
      for (std::size_t at = 0; (at = name.find('-', at)) != std::string::npos; at += 2) name.insert(at, "\\");
      next(fmt::format("\\fB{}\\fR", name));
    }
  }
}
