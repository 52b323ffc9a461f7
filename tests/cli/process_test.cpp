// What only a process of its own can show: the environment, pipes, a full disk, keys that interrupt.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <optional>

#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"

using namespace loftwright::test;

namespace {

const std::vector<std::string> kFly{"fly", "--ball-speed", "118mph", "--launch", "11deg", "--spin", "2700rpm"};

std::vector<std::string> with(std::vector<std::string> args, const std::vector<std::string>& more) {
  args.insert(args.end(), more.begin(), more.end());
  return args;
}

}  // namespace

TEST_CASE("process and in-process write the same bytes") {
  CHECK(run_process(kFly).out == run_args(kFly).out);
  CHECK(run_process({"demo"}).out == run_args({"demo"}).out);
}

TEST_CASE("exit codes reach the shell") {
  CHECK(run_process({"--version"}).code == 0);
  CHECK(run_process({}).code == 2);
  CHECK(run_process({"fly", "--nonsense"}).code == 2);
  CHECK(run_process({"advise", "no-such-file.json"}).code == 3);
}

TEST_CASE("an answer that cannot be written is an error of every command, and what is kept stays whole") {
  const auto check_refused = [](const std::vector<std::string>& args, const char* to, const char* said) {
    const Ran ran = run_process(args, "", "", to);
    INFO(nlohmann::json(args) << " >" << to << "\n" << ran.err);
    CHECK(ran.code == 4);
    CHECK(ran.err.find(said) != std::string::npos);
    CHECK(ran.err.find("internal") == std::string::npos);
  };
  std::optional<Desk> desk(std::in_place);
  const auto untouched = desk->books();
  for (const char* to : {"/dev/full", "&-"}) {  // a full disk, and nothing there
    for (const auto& command : loftwright::cli::commands()) {
      for (const char* more : {"--quiet", "--json", "--help"}) {
        const bool kept = changes_book(command) && more != std::string("--help");
        check_refused(
            with(example_of(command, desk->data), {more}), to,
            kept ? "the change is kept, but the answer could not be written" : ": the answer could not be written");
        CHECK(run_process({"book", "list", desk->book.string()}).err.empty());
        CHECK((desk->books() == untouched) != kept);
        if (kept) desk.emplace();
      }
    }
    for (const std::vector<std::string>& args :
         {std::vector<std::string>{"--help"}, {"--version"}, {"book", "--help"}}) {
      check_refused(args, to, "the answer could not be written");
    }
  }
}

TEST_CASE("a reader that goes away ends the program quietly") {
  const Desk desk;
  for (const auto& command : loftwright::cli::commands()) {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    close(ends[0]);
    const pid_t child = start_process(example_of(command, desk.data), ends[1], desk.folder.path());
    close(ends[1]);
    INFO(command.name);
    CHECK(ended(child) == -SIGPIPE);
  }
  CHECK(run_process({"demo", "--json"}, "", "", "&1 | head -n 1 >/dev/null").err.empty());
}

TEST_CASE("a full disk costs no page and no pupil's file that was there") {
  const Desk desk;
  const std::string data = desk.data.string(), page = desk.folder.write("page.html", "old page").string(),
                    pupil = desk.folder.write("tuned.json", "old pupil").string();
  const auto before = desk.files();
  for (const auto& args : std::vector<std::vector<std::string>>{
           {"demo", "--html", page},
           {"chart", "--html", page},
           {"compare", data + "/academy/tamsin-before.csv", data + "/academy/tamsin-after.csv", "--html", page},
           {"book", "history", data + "/books/demo.json", "--html", page},
           {"tune", data + "/pupils/demo.json", "--shots", data + "/shots/tuning.csv", "--into", pupil,
            "--overwrite"}}) {
    // In sh a block is 512 bytes. Without the trap the signal would end the program.
    const Ran ran = run_process(args, "", "trap '' XFSZ; ulimit -f 1;", "/dev/null");
    INFO(nlohmann::json(args) << "\n" << ran.err);
    CHECK(ran.code == 4);
    CHECK(ran.err.find("could not be written: File too large") != std::string::npos);
    CHECK(desk.files() == before);
  }
}

TEST_CASE("all or nothing: no answer without the page that was asked for, and no page in silence without its answer") {
  const Desk desk;
  const std::string data = desk.data.string();
  const std::vector<std::vector<std::string>> lines{
      {"demo", "--draws", "0"},
      {"chart"},
      {"compare", data + "/academy/tamsin-before.csv", data + "/academy/tamsin-after.csv"},
      {"book", "history", desk.book.string()}};
  for (const auto& args : lines) {
    for (const char* form : {"--units=yards", "--json"}) {
      const Ran ran = run_process(with(args, {form, "--html", "/proc/x.html"}));
      INFO(nlohmann::json(args) << "\n" << ran.err);
      CHECK(ran.code == 4);
      CHECK(ran.out.empty());
      CHECK(ran.err.find("/proc/x.html could not be written") != std::string::npos);
      const std::string page = (desk.folder.path() / "page.html").string();
      const Ran full = run_process(with(args, {form, "--html", page}), "", "", "/dev/full");
      CHECK(full.code == 4);
      CHECK(full.err.find("the page is written, but the answer could not be written") != std::string::npos);
      CHECK(file_contents(page).ends_with("</html>\n"));
    }
  }
}

TEST_CASE("the page of a pupil stays small whatever the file says") {
  const Desk desk;
  nlohmann::ordered_json pupil = parsed<nlohmann::ordered_json>(file_contents(desk.data / "pupils" / "demo.json"));
  for (const char* key : {"name", "notes"}) pupil[key] = std::string(1'000'000, '<');
  const std::string file = desk.folder.write("loud.json", pupil.dump()).string(),
                    page = (desk.folder.path() / "loud.html").string();
  const Ran ran = run_args({"advise", file, "--draws", "0", "--html", page});
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(file_contents(page).size() < 400'000);
}

TEST_CASE(
    "names that lead nowhere, in circles or are too long, and folders nobody may read, are mistakes of the line") {
  const Desk desk;
  const auto folder = desk.folder.path();
  std::filesystem::create_symlink(folder / "loop.json", folder / "loop.json");
  std::filesystem::create_symlink(folder / "loop.html", folder / "loop.html");
  std::filesystem::create_directory(folder / "models");
  std::filesystem::create_symlink(folder / "models" / "turf", folder / "models" / "turf");
  std::filesystem::create_directory(folder / "shut");
  const std::string loop = (folder / "loop.json").string(),
                    endless = (folder / (std::string(300, 'a') + ".json")).string(),
                    pupil = (desk.data / "pupils" / "demo.json").string(),
                    list = (desk.data / "shots" / "tuning.csv").string();
  for (const auto& args : std::vector<std::vector<std::string>>{
           with(kFly, {"--data", loop}),
           with(kFly, {"--data", endless}),
           with(kFly, {"--data", (folder / "models").string()}),
           with(kFly, {"--turf", loop}),
           {"advise", loop},
           {"advise", endless},
           {"check", loop},
           {"book", "list", loop},
           {"book", "add", endless, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12"},
           {"demo", "--html", (folder / "loop.html").string()},
           {"demo", "--html", endless + ".html"},
           {"tune", pupil, "--shots", list, "--into", loop},
           {"tune", pupil, "--shots", list, "--into", endless}}) {
    const Ran ran = run_process(args);
    INFO(nlohmann::json(args) << "\n" << ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err.find("internal") == std::string::npos);
  }
  if (geteuid() == 0) return;  // to whom no folder is shut
  std::filesystem::permissions(folder / "shut", std::filesystem::perms::none);
  CHECK(run_process(with(kFly, {"--data", (folder / "shut").string()})).code == 3);
}

TEST_CASE("nothing that a command reads is written over by it") {
  const Desk desk;
  const std::string data = desk.data.string(), pupil = data + "/pupils/demo.json", list = data + "/shots/tuning.csv",
                    page = desk.folder.write("list.html", file_contents(data + "/academy/tamsin-before.csv")).string();
  const std::string link = (desk.folder.path() / "link.csv").string();
  std::filesystem::create_symlink(list, link);
  const auto before = desk.files();
  for (const auto& args :
       std::vector<std::vector<std::string>>{{"tune", pupil, "--shots", list, "--into", list, "--overwrite"},
                                             {"tune", pupil, "--shots", list, "--into", link, "--overwrite"},
                                             {"compare", page, data + "/academy/tamsin-after.csv", "--html", page}}) {
    const Ran ran = run_process(args);
    INFO(nlohmann::json(args) << "\n" << ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.err.find("itself and would be lost") != std::string::npos);
    CHECK(desk.files() == before);
  }
}

TEST_CASE("a device is not written over") {
  const ScratchFolder folder;
  const std::string device = (folder.path() / "device.html").string();
  std::filesystem::create_symlink("/dev/full", device);
  const Ran page = run_process({"demo", "--html", device});
  CHECK(page.code == 3);
  CHECK(page.err.find("not a plain file") != std::string::npos);
  const Ran tuned = run_process(
      {"tune", "data/pupils/demo.json", "--shots", "data/shots/tuning.csv", "--into", device, "--overwrite"});
  CHECK(tuned.code == 3);
  CHECK(tuned.err.find("not a plain file") != std::string::npos);
  CHECK(run_process({"book", "add", device, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12"}).code == 3);
  CHECK(std::filesystem::is_character_file("/dev/full"));
}

TEST_CASE("interrupted at any moment, a command leaves a whole file or none, and nothing beside it") {
  const Desk desk;
  const std::string data = desk.data.string(), page = (desk.folder.path() / "page.html").string(),
                    pupil = (desk.folder.path() / "tuned.json").string(), book = desk.book.string();
  const std::vector<std::vector<std::string>> lines{
      {"advise", data + "/pupils/demo.json", "--draws", "20000", "--html", page},
      {"chart", "--speed-step", "2.5mph", "--attack-step", "0.5deg", "--html", page},
      {"tune", data + "/pupils/demo.json", "--shots", data + "/shots/tuning.csv", "--into", pupil},
      {"book", "history", book, "--html", page},
      {"book", "add", book, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12"}};
  const int nowhere = open("/dev/null", O_WRONLY);
  for (const auto& args : lines) {
    std::filesystem::remove(page);
    std::filesystem::remove(pupil);
    const auto before = desk.files();
    bool interrupted = false, done = false;
    // From before it has begun to after it has ended, in steps that grow with the time already waited.
    for (long wait = 0; !done && wait < 20'000'000; wait += 1000 + wait / 3) {  // [us]
      const pid_t child = start_process(args, nowhere, desk.folder.path());
      usleep(static_cast<useconds_t>(wait));
      kill(child, SIGINT);
      const int code = ended(child);
      INFO(nlohmann::json(args) << " interrupted after " << wait << " us: " << code);
      CHECK((code == 0 || code == -SIGINT));
      (code == 0 ? done : interrupted) = true;
      for (const auto& [name, text] : desk.files()) {
        CHECK_FALSE(name.ends_with(".new"));
        const auto old = before.find(name);
        if (old != before.end() && old->second == text) continue;
        if (name == "page.html") {
          CHECK(text.ends_with("</html>\n"));
        } else {
          CHECK(nlohmann::json::accept(text));
        }
      }
      if (args.front() == "book") CHECK(run_process({"book", "list", book}).err.empty());
      if (std::filesystem::exists(pupil)) done = true;  // it would not be written over
    }
    CHECK(interrupted);
    CHECK(done);
  }
  close(nowhere);
}

TEST_CASE("no home, no folder to write in, no folder at all: every command answers as ever") {
  std::optional<Desk> desk(std::in_place);
  for (const auto& command : loftwright::cli::commands()) {
    const auto answer = [&](const std::string& before) {
      const Ran ran = run_process(example_of(command, desk->data), "", before, "", desk->folder.path());
      INFO(command.name << " after " << before << "\n" << ran.err);
      CHECK(ran.code == 0);
      const std::string said = desk->without_folder(ran.out);
      if (changes_book(command)) desk.emplace();
      return said;
    };
    const std::string usual = answer("");
    CHECK(answer("cd /proc; env -u HOME") == usual);  // where nobody may write, not even root
    CHECK(answer("mkdir gone && cd gone && rmdir ../gone; HOME=/nowhere TMPDIR=/nowhere") == usual);
  }
}

TEST_CASE("the program can open no socket") {
  const ScratchFolder folder;
  const std::string asked = (folder.path() / "asked").string();
  REQUIRE(std::system(
              ("nm -D --undefined-only " LOFTWRIGHT_BINARY_DIR "/loftwright >" + shell_quoted(asked)).c_str()) == 0);
  const std::string names = file_contents(asked);
  CHECK(names.find(" write@") != std::string::npos);  // it is the list of what it asks of the system
  for (const char* name : {"socket", "connect", "getaddrinfo", "gethostbyname", "sendto", "popen", "system", "exec"}) {
    INFO(name);
    CHECK(names.find(std::string(" U ") + name) == std::string::npos);
  }
}
