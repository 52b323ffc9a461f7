#include <fmt/format.h>

#include <map>

#include "loftwright/files/catalogue.hpp"
#include "manual.hpp"
#include "options.hpp"

namespace loftwright::cli {

namespace {

std::string_view first_word(const Command& command) { return command.name.substr(0, command.name.find(' ')); }

// Of a command in a group; "" of any other.
std::string_view second_word(const Command& command) {
  const std::size_t space = command.name.find(' ');
  return space == std::string_view::npos ? "" : command.name.substr(space + 1);
}

std::vector<std::string_view> first_words() {
  std::vector<std::string_view> out;
  for (const Command& c : commands()) {
    if (out.empty() || out.back() != first_word(c)) out.push_back(first_word(c));
  }
  return out;
}

// The second words of each group.
std::map<std::string_view, std::vector<std::string_view>> groups() {
  std::map<std::string_view, std::vector<std::string_view>> out;
  for (const Command& c : commands()) {
    if (!second_word(c).empty()) out[first_word(c)].push_back(second_word(c));
  }
  return out;
}

std::vector<std::string> words_for(const Option& option) {
  std::vector<std::string> out;
  for (const Word& w : option.words) out.emplace_back(w.word);
  const auto ids = [&](ModelKind kind) {
    for (const ModelInfo& model : Catalogue().list(kind)) out.push_back(model.id);
  };
  if (option.kind == Kind::ball) ids(ModelKind::ball);
  if (option.kind == Kind::head) ids(ModelKind::head);
  if (option.kind == Kind::turf) ids(ModelKind::turf);
  return out;
}

bool takes_file(const Option& option) {
  return option.kind == Kind::file || option.kind == Kind::ball || option.kind == Kind::head ||
         option.kind == Kind::turf;
}

std::string bash_options(std::span<const Option* const> options) {
  std::string out;
  for (const Option* o : options) out += fmt::format("{}--{}", out.empty() ? "" : " ", o->name);
  return out;
}

// A branch of a case: what may stand there.
std::string bash_branch(std::string_view indent, std::string_view pattern, std::string_view words,
                        std::string_view paths) {
  std::string out = fmt::format("{}{})", indent, pattern);
  if (!words.empty()) out += fmt::format(" words='{}'", words);
  if (!paths.empty()) out += fmt::format(" paths={}", paths);
  return out + " ;;\n";
}

std::string in_quotes(std::string_view text) {
  std::string out = "'";
  for (const char c : text) out += (c == '\'' || c == '\\' ? "\\" : "") + std::string(1, c);
  return out + "'";
}

std::string fish_option(std::string_view condition, const Option& option) {
  std::string out = fmt::format("complete -c loftwright{} -l {} -d {}", condition, option.name, in_quotes(option.help));
  if (option.kind == Kind::flag) return out + "\n";
  out += takes_file(option) ? " -r -F" : " -x";
  if (const auto words = words_for(option); !words.empty()) out += fmt::format(" -a '{}'", fmt::join(words, " "));
  if (option.kind == Kind::folder) out += " -a '(__fish_complete_directories)'";
  return out + "\n";
}

}  // namespace

std::string bash_completion() {
  std::map<std::string_view, const Option*> by_name;  // an option of two commands takes the same values in both
  std::string own, values, group_words, options;
  for (const Command& c : commands()) {
    for (const Option* o : options_of(c)) by_name.emplace(o->name, o);
    options += bash_branch("        ", fmt::format("'{}'", c.name), bash_options(options_of(c)),
                           c.positionals.empty() ? "" : "-f");
  }
  for (const auto& [name, option] : by_name) {
    const std::string_view paths = takes_file(*option) ? "-f" : option->kind == Kind::folder ? "-d" : "";
    const std::string words = fmt::format("{}", fmt::join(words_for(*option), " "));
    if (option->kind == Kind::flag) continue;
    if (words.empty() && paths.empty()) {
      own += fmt::format("{}--{}", own.empty() ? "" : "|", name);
    } else {
      values += bash_branch("    ", fmt::format("--{}", name), words, paths);
    }
  }
  for (const auto& [group, words] : groups()) {
    group_words += fmt::format("      '{0} {1}') command=\"{0} $word\" ;;\n", group,
                               fmt::join(words, fmt::format("'|'{} ", group)));
    options += bash_branch("        ", group, fmt::format("{} --help", fmt::join(words, " ")), "");
  }
  std::vector<const Option*> common;
  for (const Option& o : common_options()) common.push_back(&o);
  return fmt::format(R"(# Completion for bash, written from the program's table of options.
_loftwright() {{
  local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} command='' word words='' paths=''
  # --option=value is three words here.
  if [[ $current == '=' ]]; then
    current=''
  elif [[ $before == '=' ]]; then
    before=${{COMP_WORDS[COMP_CWORD - 2]}}
  fi
  for word in "${{COMP_WORDS[@]:1:COMP_CWORD - 1}}"; do
    case "$command $word" in
      ' {}') command=$word ;;
{}    esac
  done
  case $before in
    {}) return ;;  # only the user knows
{}    *)
      case $command in
{}        *) words='{} {}' ;;
      esac
      if [[ $current == -* ]]; then paths=''; elif [[ $paths ]]; then words=''; fi ;;
  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current"; [[ $paths ]] && compgen "$paths" -- "$current")
  [[ $paths ]] && compopt -o filenames
}}
complete -F _loftwright loftwright
)",
                     fmt::join(first_words(), "'|' "), group_words, own, values, options, fmt::join(first_words(), " "),
                     bash_options(common));
}

std::string fish_completion() {
  std::string out = "# Completion for fish, written from the program's table of options.\ncomplete -c loftwright -f\n";
  for (const Option& option : common_options()) out += fish_option("", option);
  for (const auto& [group, words] : groups()) {
    out += fmt::format("complete -c loftwright -n __fish_use_subcommand -a {}\n", group);
  }
  for (const Command& c : commands()) {
    const std::string_view first = first_word(c), second = second_word(c);
    std::string here = fmt::format(" -n '__fish_seen_subcommand_from {}", first);
    if (second.empty()) {
      out += fmt::format("complete -c loftwright -n __fish_use_subcommand -a {} -d {}\n", first, in_quotes(c.summary));
    } else {
      out += fmt::format("complete -c loftwright{}; and not __fish_seen_subcommand_from {}' -a {} -d {}\n", here,
                         fmt::join(groups().at(first), " "), second, in_quotes(c.summary));
      here += fmt::format("; and __fish_seen_subcommand_from {}", second);
    }
    here += "'";
    if (!c.positionals.empty()) out += fmt::format("complete -c loftwright{} -F\n", here);
    for (const auto& set : c.options) {
      for (const Option& option : set) out += fish_option(here, option);
    }
  }
  return out;
}

}  // namespace loftwright::cli
