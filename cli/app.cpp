#include "app.hpp"

#include <fmt/format.h>
#include <cstdlib>
#include <istream>
#include <ostream>
#include <sstream>
#include <thread>

#include "commands.hpp"
#include "core/disk.hpp"
#include "core/text.hpp"
#include "help.hpp"
#include "layout.hpp"
#include "line.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/version.hpp"

namespace loftwright::cli {

namespace {

Catalogue catalogue_for(const Values& values) {
  if (values.given("data")) return Catalogue(values.text("data"));
  const char* folder = std::getenv("LOFTWRIGHT_DATA");
  return folder && *folder ? Catalogue(folder) : Catalogue();
}

int answer(const Line& line, std::istream& in, std::ostream& out, std::ostream& err, std::string& kept) {
  if (line.typed.contains("version")) {
    out << "loftwright " << kVersion << "\n";
    return kDone;
  }
  if (line.typed.contains("help")) {
    out << (line.command ? help_for(*line.command) : line.group.empty() ? help_overview() : help_for_group(line.group));
    return kDone;
  }
  if (!line.group.empty()) {
    err << help_for_group(line.group);
    return kUsage;
  }
  if (!line.command) {
    err << help_overview();
    return kUsage;
  }
  const Values values(*line.command, line.typed, line.positionals);
  const Session session{values,
                        catalogue_for(values),
                        values.text("units") == "yards" ? UnitSystem::yards : UnitSystem::metres,
                        values.given("json"),
                        values.given("quiet"),
                        in,
                        out,
                        err,
                        kept};
  return line.command->run(session);
}

// What a tablet or a word processor made of quotes and hyphens on the command line, when that may be why it failed.
std::string typing_words(const std::vector<std::string>& args) {
  for (const std::string& arg : args) {
    const std::string_view first = std::string_view(arg).substr(0, 3), curly = curly_quote(arg);
    if (!curly.empty()) {
      return printable(fmt::format(
          "\n({} in '{:.60}' is a curly quotation mark, as tablets make them; straight ones, \" or ', are needed)",
          curly, arg));
    }
    if (first == "—" || first == "–") {
      return printable(fmt::format(
          "\n('{:.60}' begins with a dash, as tablets make of hyphens; options begin with two hyphens, --)", arg));
    }
  }
  return "";
}

}  // namespace

std::string from_pipe(const Session& session, std::string_view expected) {
  constexpr std::size_t kMost = 8u << 20;  // [bytes]
  std::string text(kMost + 1, '\0');
  session.in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(session.in.gcount()));
  if (text.empty()) throw InputError(fmt::format("standard input is empty; {} is expected", expected));
  if (text.size() > kMost)
    throw InputError(fmt::format("standard input is too large; allowed: at most {} bytes", kMost));
  return text;
}

void check_is_no_input(const Session& session, std::string_view name, std::string_view file) {
  const auto check = [&](const std::string& input, std::string_view what) {
    if (!is_same_file(file, input)) return;  // what is not there is no input
    throw InputError(fmt::format("--{}: {} is {} itself and would be lost; choose another name", name, file, what));
  };
  const Command& command = session.values.command();
  const std::vector<std::string>& words = session.values.positionals();
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].empty()) continue;
    const Positional& positional =
        command.positionals[std::min(i, command.positionals.size() - 1)];  // the last repeats
    check(words[i], fmt::format("the {} of this command", positional.value));
  }
  for (const Option* option : options_of(command)) {
    const bool read = option->kind == Kind::file && option->name != name && session.values.given(option->name);
    if (read) check(session.values.text(option->name), fmt::format("the file of --{}", option->name));
  }
}

void check_into(const Session& session, const std::string& into) {
  if (!session.values.given("overwrite") && seems_there(into)) {  // what cannot be told is said by check_may_write
    throw InputError(fmt::format("--into: {} is there already; --overwrite writes over it", into));
  }
  if (!is_same_file(into, session.values.positional())) check_is_no_input(session, "into", into);
  try {
    check_may_write(into);
  } catch (const InputError& error) {
    throw InputError(fmt::format("--into: {}", error.what()));
  }
}

int threads_given(const Session& session) {
  const long threads = session.values.integer("threads");
  return threads > 0 ? static_cast<int>(threads) : static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
}

std::optional<NamedAcademy> academy_given(const Session& session) {
  if (!session.values.given("academy")) return std::nullopt;
  return load_academy(session.values.text("academy"));
}

void warn(const Session& session, std::string_view sentence) {
  if (!session.quiet) session.err << wrapped(printable(sentence), "warning: ");
}

int run(const std::vector<std::string>& args, std::istream& in, std::ostream& out, std::ostream& err) {
  Line line;
  const auto say = [&](std::string_view who, std::string_view what) {
    err << who << ": " << printable(what) << typing_words(args) << "\n";
  };
  const auto who = [&] {
    const std::string_view name = line.command ? line.command->name : std::string_view(line.group);
    return fmt::format("loftwright{}{}", name.empty() ? "" : " ", name);
  };
  try {
    LineParser().parse(args, line);
    std::ostringstream whole;  // all of the answer or nothing: what fails on the way has printed none of it
    std::string kept;
    const int code = answer(line, in, whole, err, kept);
    if (!(out << whole.str()).flush()) {
      throw Error(kept.empty() ? std::string(kNotWritten) : fmt::format("{}, but {}", kept, kNotWritten));
    }
    return code;
  } catch (const UsageError& error) {
    say(who(), error.what());
    err << "Try '" << who() << " --help'.\n";
    return kUsage;
  } catch (const InputError& error) {
    say(who(), error.what());
    return kInput;
  } catch (const Error& error) {  // not what was asked, but the machine: a full disk
    err << who() << ": " << printable(error.what()) << "\n";
    return kInternal;
  } catch (const std::exception& error) {
    err << who() << ": internal error: " << error.what() << "\n";
    return kInternal;
  } catch (...) {
    err << who() << ": internal error\n";
    return kInternal;
  }
}

}  // namespace loftwright::cli
