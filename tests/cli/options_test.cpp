// The table of commands and options, and everything written from it: help, docs/cli.md, the ranges of the library.
#include "options.hpp"
#include "folders.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>
#include <cstdlib>

#include "help.hpp"
#include "kept.hpp"
#include "loftwright/air/air.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/report/words.hpp"
#include "loftwright/shots/compare.hpp"
#include "loftwright/swing/arc.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const cli::Command& command(std::string_view name) {
  for (const cli::Command& c : cli::commands()) {
    if (c.name == name) return c;
  }
  throw std::logic_error("no such command");
}

const cli::Option& option(std::string_view command_name, std::string_view name) {
  for (const cli::Option* o : cli::options_of(command(command_name))) {
    if (o->name == name) return *o;
  }
  throw std::logic_error("no such option");
}

double si(const cli::Option& o, std::string_view text) { return parse_quantity("test", text, o.dimension, o.unit); }

// The table's range is the library's: its ends are accepted, a little beyond is not.
template <class Accepts>
void check_range_of(const cli::Option& o, Accepts accepts) {
  INFO("--" << o.name << ": " << cli::range_words(o));
  const double low = low_of(o.range), high = high_of(o.range), beyond = 1e-6 * (high - low);
  CHECK(accepts(low));
  CHECK(accepts(high));
  CHECK(!accepts(low - beyond));
  CHECK(!accepts(high + beyond));
}

template <class F>
bool passes(F f) {
  try {
    f();
    return true;
  } catch (const InputError&) {
    return false;
  }
}

std::string options_table(std::span<const cli::Option* const> options) {
  std::string out = "| option | what it is | |\n|---|---|---|\n";
  for (const cli::Option* o : options) {
    out += fmt::format("| `--{}{}{}` | {} | {} |\n", o->name, o->value.empty() ? "" : " ", o->value, o->help,
                       cli::fine_print(*o));
  }
  return out;
}

std::string command_section(const cli::Command& c) {
  std::string out = fmt::format("{}\n\n```\n", c.description);
  for (const cli::Example& e : c.examples) out += fmt::format("loftwright {}\n", e.args);
  out += "```\n";
  for (const cli::Positional& p : c.positionals) out += fmt::format("\n`{}`: {}.\n", p.value, p.help);
  std::vector<const cli::Option*> own = cli::options_of(c);
  own.resize(own.size() - cli::common_options().size());
  if (!own.empty()) out += fmt::format("\n{}", options_table(own));
  if (!c.signs.empty()) out += fmt::format("\n{}\n", c.signs);
  return out;
}

// Puts `text` between "<!-- name -->" and the next "<!-- end -->".
void fill(std::string& document, const std::string& name, const std::string& text) {
  const std::string mark = fmt::format("<!-- {} -->\n", name);
  const std::size_t from = document.find(mark);
  INFO("docs/cli.md has no place for " << name);
  REQUIRE(from != std::string::npos);
  const std::size_t begin = from + mark.size(), end = document.find("<!-- end -->", begin);
  REQUIRE(end != std::string::npos);
  document.replace(begin, end - begin, text);
}

}  // namespace

TEST_CASE("the table is sound") {
  std::map<std::string_view, const cli::Option*> by_name;  // completion in bash knows an option by its name alone
  for (const cli::Command& c : cli::commands()) {
    INFO(c.name);
    CHECK(!c.examples.empty());
    CHECK(c.run != nullptr);
    std::vector<std::string> names;
    for (const cli::Option* o : cli::options_of(c)) {
      INFO(o->name);
      CHECK(std::find(names.begin(), names.end(), o->name) == names.end());
      names.emplace_back(o->name);
      CHECK(!o->help.empty());
      CHECK(o->help.back() != '.');
      const cli::Option& other = *by_name.emplace(o->name, o).first->second;
      CHECK(o->kind == other.kind);
      CHECK(o->words.data() == other.words.data());
      CHECK((o->kind == cli::Kind::flag) == o->value.empty());
      if (o->kind == cli::Kind::quantity) {
        CHECK(unit(o->unit).dimension == o->dimension);
        CHECK(o->range.known());
      }
      if (!o->needs.empty()) CHECK_NOTHROW(option(c.name, o->needs));
      if (!o->excludes.empty()) CHECK_NOTHROW(option(c.name, o->excludes));
    }
  }
}

TEST_CASE("every command has its cases, its JSON and its place in the documents") {
  const auto holds = [](const std::string& path, const std::string& text) {
    INFO(path << " must hold: " << text);
    CHECK(file_contents(std::filesystem::path(LOFTWRIGHT_SOURCE_DIR) / path).find(text) != std::string::npos);
  };
  for (const cli::Command& c : cli::commands()) {
    const std::string name(c.name), first = name.substr(0, name.find(' '));
    INFO(name);
    CHECK(!c.examples.empty());
    holds("docs/cli.md", fmt::format("<!-- {} -->", name));
    holds("README.md", fmt::format("`loftwright {}", first));
    holds("tests/cli/cases.json", fmt::format("\"args\": \"{} ", name));
    holds("tests/cli/json_schema.py", fmt::format("\"{}", first));  // its answers, and so their schema and docs/json.md
  }
}

TEST_CASE("every example in help works as typed") {
  const ScratchFolder folder;  // some change files
  std::filesystem::copy(LOFTWRIGHT_SOURCE_DIR "/data", folder.path() / "data",
                        std::filesystem::copy_options::recursive);
  for (const cli::Command& c : cli::commands()) {
    for (const cli::Example& e : c.examples) {
      const Ran ran = run_process(words_of(std::string(e.args)), "", "", "", folder.path());
      INFO(e.args << "\n" << ran.err);
      CHECK(ran.code == 0);
      CHECK(!ran.out.empty());
    }
  }
}

TEST_CASE("the ranges in the table are the library's") {
  const auto delivery = [](double Delivery::*member) {
    return [member](double value) {
      Delivery d{40, 0, 0, 0, 0.2, 0, 0};
      d.*member = value;
      return passes([&] { validate(d); });
    };
  };
  check_range_of(option("strike", "club-speed"), delivery(&Delivery::club_speed));
  check_range_of(option("strike", "attack"), delivery(&Delivery::attack));
  check_range_of(option("strike", "path"), delivery(&Delivery::path));
  check_range_of(option("strike", "face"), delivery(&Delivery::face));
  check_range_of(option("strike", "dynamic-loft"), delivery(&Delivery::dynamic_loft));
  check_range_of(option("strike", "toe"), delivery(&Delivery::toe));
  check_range_of(option("strike", "high"), delivery(&Delivery::high));
  const cli::Option& follow = option("strike", "follow");
  CHECK(high_of(follow.range) / kDegree == Approx(kMostFollow));
  CHECK(si(follow, follow.fallback) / kDegree == Approx(kUsualFollow));
  const auto launch = [](double Launch::*member) {
    return [member](double value) {
      Launch l{60, 0.2, 0, 250, 0};
      l.*member = value;
      return passes([&] { validate(l); });
    };
  };
  check_range_of(option("fly", "ball-speed"), launch(&Launch::ball_speed));
  check_range_of(option("fly", "launch"), launch(&Launch::launch));
  check_range_of(option("fly", "azimuth"), launch(&Launch::azimuth));
  check_range_of(option("fly", "spin"), launch(&Launch::spin));
  check_range_of(option("fly", "tilt"), launch(&Launch::tilt));
  const auto weather = [](double Weather::*member) {
    return [member](double value) {
      Weather w;
      w.*member = value;
      return passes([&] { air_from(w); });
    };
  };
  check_range_of(option("fly", "temperature"), weather(&Weather::temperature));
  check_range_of(option("fly", "pressure"), weather(&Weather::pressure));
  check_range_of(option("fly", "humidity"), weather(&Weather::humidity));
  const auto arc = [](double Arc::*member) {
    return [member](double value) {
      Arc a{0.0, 0.9, 1.6, 0.0};
      a.*member = value;
      return passes([&] { at_ball(a); });
    };
  };
  check_range_of(option("arc", "low-point"), arc(&Arc::low_point));
  check_range_of(option("arc", "plane"), arc(&Arc::plane));
  check_range_of(option("arc", "radius"), arc(&Arc::radius));
  check_range_of(option("arc", "swing-direction"), arc(&Arc::swing_direction));
  const auto compare = [](double CompareOptions::*member) {
    return [member](double value) {
      ShotList list;
      for (const double carry : {160.0, 170.0}) {
        list.shots.emplace_back();
        list.shots.back().at(Reading::carry) = carry;
      }
      CompareOptions options;
      options.*member = value;
      options.bootstrap.resamples = 100;
      return passes([&] { compare_shots(list, list, options); });
    };
  };
  check_range_of(option("compare", "worthwhile"), compare(&CompareOptions::worthwhile));
  check_range_of(option("compare", "confidence"), compare(&CompareOptions::confidence));
}

TEST_CASE("the defaults in the table are the library's") {
  const cli::Values values(command("fly"), {{"ball-speed", "100"}, {"launch", "9"}, {"spin", "3000"}}, {});
  const Pupil pupil;
  const Conditions& c = pupil.conditions;
  CHECK(values.text("ball") == pupil.ball);
  CHECK(values.text("turf") == c.turf);
  CHECK(values.quantity("altitude") == c.altitude);
  CHECK(values.quantity("temperature") == c.temperature);
  CHECK(values.quantity("humidity") == c.humidity);
  CHECK(values.quantity("wind") == c.wind.speed);
  CHECK(values.quantity("wind-from") == c.wind.from);
  CHECK(values.quantity("wind-height") == c.wind.height);
  CHECK(values.text("wind-profile") == key_of(c.wind.profile));
  const cli::Values shots(command("shots"), {}, {"list.csv"});
  CHECK(shots.text("head") == pupil.head);
  CHECK(shots.text("handed") == key_of(pupil.handed));
}

TEST_CASE("an option that repeats keeps its order") {
  const cli::Values values(command("shots"), {{"map", "b=1"}, {"map", "a=2"}, {"club", "x"}}, {"list.csv"});
  CHECK(values.texts("map") == std::vector<std::string>{"b=1", "a=2"});
  CHECK(values.texts("columns").empty());
  CHECK_THROWS_AS(values.texts("attack"), std::logic_error);
}

TEST_CASE("a range is printed rounded into itself") {
  CHECK(cli::range_words(option("strike", "club-speed")) == "20.2 to 161 mph");  // 9 and 72 m/s: 20.13 and 161.06 mph
  CHECK(cli::range_words(option("fly", "launch")) == "-20 to 80 deg");
  CHECK(cli::range_words(option("fly", "spin")) == "0 to 15000 rpm");
  CHECK(cli::range_words(option("arc", "low-point")) == "-23.6 to 23.6 in");
  CHECK(cli::range_words(option("fly", "temperature")) == "-40 to 55 C");
  CHECK(cli::range_words(option("demo", "seed")) == "0 to 18446744073709551615");
}

TEST_CASE("values are read from the table") {
  const cli::Values values(command("strike"), {{"club-speed", "100"}, {"attack", "-4deg"}, {"dynamic-loft", "0.2rad"}},
                           {});
  CHECK(values.quantity("club-speed") == 100 * 0.44704);
  CHECK(values.quantity("attack") == -4 * unit("deg").factor);
  CHECK(values.quantity("dynamic-loft") == 0.2);
  CHECK(values.quantity("toe") == 0.0);
  CHECK(values.text("turf") == "medium");
  CHECK(values.integer("threads") == 0);
  CHECK(!values.given("toe"));
  CHECK_THROWS_AS(values.quantity("loft"), std::logic_error);
  CHECK_THROWS_AS(values.quantity("pressure"), std::logic_error);  // not given, no default
}

TEST_CASE("a mistake in how the line is written comes before a value out of range") {
  CHECK_THROWS_AS(cli::Values(command("fly"), {{"ball-speed", "900mph"}, {"launch", "3mph"}, {"spin", "3"}}, {}),
                  cli::UsageError);
  CHECK_THROWS_AS(cli::Values(command("fly"), {{"ball-speed", "900mph"}, {"launch", "3deg"}, {"spin", "3"}}, {}),
                  InputError);
}

TEST_CASE("help is laid out as approved") {
  const std::filesystem::path folder = LOFTWRIGHT_SOURCE_DIR "/tests/cli/golden";
  check_kept(folder / "help.txt", cli::help_overview());
  check_kept(folder / "help-book.txt", cli::help_for_group("book"));
  for (const cli::Command& c : cli::commands()) {
    std::string name(c.name);
    std::replace(name.begin(), name.end(), ' ', '-');
    check_kept(folder / fmt::format("help-{}.txt", name), cli::help_for(c));
  }
}

TEST_CASE("docs/cli.md says what the table says") {
  const std::filesystem::path path = LOFTWRIGHT_SOURCE_DIR "/docs/cli.md";
  std::string document = file_contents(path);
  for (const cli::Command& c : cli::commands()) fill(document, std::string(c.name), command_section(c));
  std::vector<const cli::Option*> common;
  for (const cli::Option& o : cli::common_options()) common.push_back(&o);
  fill(document, "common options", options_table(common));
  check_kept(path, document);
}
