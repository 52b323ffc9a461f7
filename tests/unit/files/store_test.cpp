// A book on disk while writers are killed, disks are full, files are cut and others write too.
#include "files/store.hpp"

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <system_error>

#include "books.hpp"
#include "scratch_folder.hpp"

using namespace loftwright;
using namespace loftwright::test;
namespace fs = std::filesystem;

namespace {

std::string text_at(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

void put(const fs::path& file, const std::string& text) { std::ofstream(file, std::ios::binary) << text; }

std::vector<fs::path> paths_in(const fs::path& folder) {
  std::vector<fs::path> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.push_back(entry.path().filename());
  std::sort(names.begin(), names.end());
  return names;
}

fs::path previous_of(const fs::path& file) { return file.string() + ".previous"; }

BookChange adding(const BookedSession& session) {
  return [session](Book& book) { add_session(book, session); };
}

// The sessions alone: an undone change raises the version.
std::string sessions_of(Book book) {
  book.version = 1000000;
  return book_text(book);
}

std::string sessions_at(const fs::path& file) { return sessions_of(load_book(file).book); }

// A book of some versions in a file of its own.
struct Kept {
  ScratchFolder folder;
  fs::path file = folder.path() / "pupil.json";

  explicit Kept(Draws& draws, int sessions) {
    for (int i = 0; i < sessions; ++i) change_book(file, WhenMissing::begin, adding(any_session(draws)));
  }
};

// Runs `work` in a process of its own: its exit code, or minus the signal that ended it.
int in_child(const std::function<int()>& work) {
  const pid_t child = fork();
  if (child == 0) {
    int code = 99;
    try {
      code = work();
    } catch (...) {
    }
    _exit(code);
  }
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return WIFSIGNALED(status) ? -WTERMSIG(status) : WEXITSTATUS(status);
}

// Writing that comes to `end` before call number `at` (from 0), in pieces of `piece` bytes.
Writing ending(int at, std::size_t piece, std::function<void()> end) {
  auto left = std::make_shared<int>(at);
  return {piece, [left, end] {
            if ((*left)-- == 0) end();
          }};
}

void die() { kill(getpid(), SIGKILL); }

// The sessions there are, of either kind.
std::string check_whole(const fs::path& file, const std::string& old_sessions, const std::string& new_sessions) {
  const LoadedBook loaded = load_book(file);
  std::string seen = sessions_of(loaded.book);
  CHECK((seen == old_sessions || seen == new_sessions));
  CHECK(loaded.warnings.empty());  // no kill leaves a damaged file
  return seen;
}

}  // namespace

TEST_CASE("a writer killed before any step leaves the old sessions or the new ones") {
  Draws draws(20261125);
  int killed = 0;
  for (int round = 0; round < 200; ++round) {
    const Kept kept(draws, 1 + round % 4);
    const BookedSession session = any_session(draws);
    const std::string old_sessions = sessions_at(kept.file);
    Book next = load_book(kept.file).book;
    ++next.version;
    add_session(next, session);
    const std::string new_sessions = sessions_of(next);
    // Pieces so that a version takes some four writes.
    const std::size_t piece = 1 + book_text(next).size() / 4 + static_cast<std::size_t>(draws.between(0, 40));
    int code = 99;
    for (int at = 0; code != 0; ++at) {
      REQUIRE(at < 100);
      INFO("round " << round << ", killed before call " << at);
      code = in_child([&] {
        change_book(kept.file, WhenMissing::refuse, adding(session), ending(at, piece, die));
        return 0;
      });
      REQUIRE((code == 0 || code == -SIGKILL));
      killed += code != 0;
      if (check_whole(kept.file, old_sessions, new_sessions) == new_sessions && code != 0)
        break;  // dead after the last rename: the next would add it twice
    }
    CHECK(sessions_at(kept.file) == new_sessions);
    CHECK(sessions_of(load_book(previous_of(kept.file)).book) == old_sessions);
    // And whatever was left behind hinders nobody.
    change_book(kept.file, WhenMissing::refuse, adding(session));
    CHECK(load_book(kept.file).book.sessions.size() == next.sessions.size() + 1);
    for (const fs::path& name : paths_in(kept.folder.path())) {
      INFO(name);
      const bool left = name.string().starts_with(".loftwright-") && name.extension() == ".new";  // by the killed
      CHECK((left || name == "pupil.json" || name == "pupil.json.previous"));
    }
  }
  CHECK(killed > 200 * 10);
}

TEST_CASE("a writer asked to end at any step finishes the file it is at, and leaves nothing beside it") {
  Draws draws(20261126);
  for (const int asked : {SIGINT, SIGTERM, SIGHUP}) {
    const Kept kept(draws, 2);
    const BookedSession session = any_session(draws);
    const std::string old_sessions = sessions_at(kept.file);
    int at = 0;
    while (sessions_at(kept.file) == old_sessions) {
      INFO("signal " << asked << " before call " << at);
      REQUIRE(at < 100);
      const int code = in_child([&] {
        signal(asked, SIG_DFL);
        change_book(kept.file, WhenMissing::refuse, adding(session),
                    ending(at, 700, [asked] { kill(getpid(), asked); }));
        return 0;
      });
      CHECK(code == -asked);
      for (const fs::path& name : paths_in(kept.folder.path())) CHECK(name.extension() != ".new");
      CHECK(load_book(kept.file).warnings.empty());
      ++at;
    }
    CHECK(at > 3);
    CHECK(load_book(kept.file).book.sessions.size() == 3);
  }
}

TEST_CASE("a writer killed while it undoes leaves one set of sessions or the other") {
  Draws draws(77);
  const Kept kept(draws, 3);
  const std::string three = sessions_at(kept.file), two = sessions_of(load_book(previous_of(kept.file)).book);
  for (int at = 0, code = 99; code != 0 && sessions_at(kept.file) == three; ++at) {
    INFO("killed before call " << at);
    REQUIRE(at < 100);
    // Once the previous version is replaced there is nothing left to undo: an interrupted undo must not make that a
    // loss.
    code = in_child([&] {
      try {
        undo_change(kept.file, ending(at, 500, die));
      } catch (const InputError&) {
      }
      return 0;
    });
    check_whole(kept.file, two, three);
  }
}

TEST_CASE("a first writer killed before any step leaves no book or the whole one") {
  Draws draws(5);
  const ScratchFolder folder;
  const fs::path file = folder.path() / "new.json";
  const BookedSession session = any_session(draws);
  int code = 99;
  for (int at = 0; code != 0 && !fs::exists(file); ++at) {
    INFO("killed before call " << at);
    REQUIRE(at < 100);
    code = in_child([&] {
      change_book(file, WhenMissing::begin, adding(session), ending(at, 300, die));
      return 0;
    });
    if (!fs::exists(file)) CHECK_THROWS_WITH(load_book(file), Catch::EndsWith("there is no such book"));
  }
  CHECK(load_book(file).book.sessions.size() == 1);
}

TEST_CASE(
    "a file cut at any byte gives the sessions before or all of them, with a warning when they are the ones before") {
  Draws draws(9);
  const Kept kept(draws, 3);
  const std::string whole = text_at(kept.file), previous = text_at(previous_of(kept.file));
  const std::string new_sessions = sessions_at(kept.file),
                    old_sessions = sessions_of(load_book(previous_of(kept.file)).book);
  for (std::size_t length = 0; length < whole.size(); ++length) {
    INFO("cut to " << length << " of " << whole.size() << " bytes");
    put(kept.file, whole.substr(0, length));
    const LoadedBook loaded = load_book(kept.file);
    const bool complete = length == whole.size() - 1;  // only the last line end is gone
    CHECK(sessions_of(loaded.book) == (complete ? new_sessions : old_sessions));
    REQUIRE(loaded.warnings.size() == (complete ? 0 : 1));
    if (complete) continue;
    CHECK(loaded.warnings[0].find(length == 0 ? "is empty" : "is damaged") != std::string::npos);
    CHECK(loaded.warnings[0].find("its previous version is taken in its place (version 2, 2 sessions)") !=
          std::string::npos);
  }
  // The version before is not asked while the file is whole, and one of the two is enough.
  put(kept.file, whole);
  for (std::size_t length = 0; length < previous.size(); length += 7) {
    put(previous_of(kept.file), previous.substr(0, length));
    CHECK(sessions_at(kept.file) == new_sessions);
  }
}

TEST_CASE("a change to a damaged book builds on the previous version, and keeps both that and what was left") {
  Draws draws(11);
  for (const std::string& rest :
       {std::string(), std::string("{\"format\": \"loftwright-bo"), std::string(4096, '\0')}) {
    const Kept kept(draws, 2);
    const std::string previous = sessions_at(previous_of(kept.file));
    put(kept.file, rest);
    const LoadedBook changed = change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
    CHECK(changed.restored);
    CHECK(changed.warnings.size() == (rest.empty() ? 1 : 2));
    CHECK(changed.book.sessions.size() == 2);
    CHECK(sessions_at(previous_of(kept.file)) == previous);
    const fs::path damaged = kept.file.string() + ".damaged";
    CHECK(fs::exists(damaged) == !rest.empty());
    if (!rest.empty()) CHECK(text_at(damaged) == rest);
    CHECK(load_book(kept.file).warnings.empty());
    // Damaged once more: what was left the first time is not written over.
    put(kept.file, "{\"again");
    change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
    CHECK(text_at(damaged.string() + (rest.empty() ? "" : "-2")) == "{\"again");
    if (!rest.empty()) CHECK(text_at(damaged) == rest);
  }
}

TEST_CASE("no session's number is given twice, however often the book is damaged, lost, undone and changed") {
  Draws draws(20261126);
  const Kept kept(draws, 2);
  std::vector<int> given{1, 2};
  const auto add = [&] {
    int number = 0;
    change_book(kept.file, WhenMissing::begin,
                [&](Book& book) { number = add_session(book, any_session(draws)).number; });
    CHECK(std::find(given.begin(), given.end(), number) == given.end());
    given.push_back(number);
  };
  for (int i = 0; i < 60; ++i) {
    CAPTURE(i, given);
    switch (static_cast<int>(draws.between(0.0, 5.0))) {
      case 0: put(kept.file, ""); break;
      case 1: put(kept.file, "{\"format\""); break;
      case 2: fs::remove(kept.file); break;
      case 3: try { undo_change(kept.file);
        } catch (const InputError&) {  // nothing to undo
        }
        break;
      default: add();
    }
    add();
  }
}

TEST_CASE("undo on a damaged book brings back the version before, once, and keeps what was left") {
  Draws draws(20261127);
  const Kept kept(draws, 3);
  const std::string before = sessions_at(previous_of(kept.file));
  put(kept.file, "{\"format\": \"lof");
  const LoadedBook undone = undo_change(kept.file);
  CHECK(undone.restored);
  REQUIRE(undone.warnings.size() == 2);
  CHECK_THAT(undone.warnings[0], Catch::Contains("is damaged") && Catch::Contains("(version 2, 2 sessions)"));
  CHECK_THAT(undone.warnings[1], Catch::EndsWith("pupil.json.damaged"));
  CHECK(sessions_at(kept.file) == before);
  CHECK(text_at(kept.file.string() + ".damaged") == "{\"format\": \"lof");
  CHECK_THROWS_WITH(undo_change(kept.file), Catch::EndsWith("its previous version is the same"));
  CHECK(sessions_at(kept.file) == before);
}

TEST_CASE("a writer killed while it replaces a damaged file leaves the previous sessions or the new ones") {
  Draws draws(12);
  const Kept kept(draws, 2);
  const std::string old_sessions = sessions_of(load_book(previous_of(kept.file)).book);
  const BookedSession session = any_session(draws);
  put(kept.file, "{\"format\": \"lof");
  for (int at = 0, code = 99; code != 0; ++at) {
    INFO("killed before call " << at);
    REQUIRE(at < 100);
    code = in_child([&] {
      change_book(kept.file, WhenMissing::refuse, adding(session), ending(at, 500, die));
      return 0;
    });
    const LoadedBook loaded = load_book(kept.file);
    if (!loaded.warnings.empty()) {
      CHECK(sessions_of(loaded.book) == old_sessions);
      continue;
    }
    CHECK(loaded.book.sessions.size() == 2);
    break;
  }
}

TEST_CASE("a missing file with a previous version is not taken for a new book") {
  Draws draws(13);
  const Kept kept(draws, 2);
  fs::remove(kept.file);
  CHECK(load_book(kept.file).warnings.at(0).find("is missing") != std::string::npos);
  const LoadedBook changed = change_book(kept.file, WhenMissing::begin, adding(any_session(draws)));
  CHECK(changed.book.sessions.size() == 2);
  CHECK(changed.warnings.size() == 1);
}

TEST_CASE("when both versions are damaged the book is refused and left alone") {
  Draws draws(14);
  const Kept kept(draws, 2);
  put(kept.file, "{");
  put(previous_of(kept.file), "");
  CHECK_THROWS_WITH(load_book(kept.file),
                    Catch::Contains("is damaged") && Catch::EndsWith("its previous version is empty"));
  CHECK_THROWS_AS(change_book(kept.file, WhenMissing::begin, adding(any_session(draws))), InputError);
  CHECK_THROWS_AS(undo_change(kept.file), InputError);
  CHECK(text_at(kept.file) == "{");
  CHECK(text_at(previous_of(kept.file)).empty());
}

TEST_CASE("a newer format, another format and a book that was edited wrong are refused, and nothing is changed") {
  Draws draws(15);
  const std::string book = book_text([&] {
    Book b = any_book(draws, 1);
    return b;
  }());
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = book;
    return text.replace(text.find(from), from.size(), to);
  };
  const std::vector<std::pair<std::string, std::string>> cases{
      {with("loftwright-book/1", "loftwright-book/2"), "newer than this program can read"},
      {R"({"format": "loftwright-book/7", "anything": []})", "newer than this program can read"},
      {R"({"format": "loftwright-pupil/1"})", "\"loftwright-book/1\" is expected"},
      {"[]", "an object"},
      {with("\"sessions\"", "\"lessons\""), "/lessons"},
  };
  for (const auto& [text, says] : cases) {
    const Kept kept(draws, 2);
    const std::string previous = text_at(previous_of(kept.file));
    put(kept.file, text);
    INFO(text);
    CHECK_THROWS_WITH(load_book(kept.file), Catch::Contains(says));
    CHECK_THROWS_AS(load_book(kept.file), FileError);
    CHECK_THROWS_AS(change_book(kept.file, WhenMissing::begin, adding(any_session(draws))), FileError);
    CHECK_THROWS_AS(undo_change(kept.file), FileError);
    CHECK(text_at(kept.file) == text);
    CHECK(text_at(previous_of(kept.file)) == previous);
    // Nor is a newer previous version passed over when the file itself is damaged.
    put(kept.file, "{");
    put(previous_of(kept.file), text);
    CHECK_THROWS_AS(change_book(kept.file, WhenMissing::begin, adding(any_session(draws))), FileError);
    CHECK(text_at(previous_of(kept.file)) == text);
  }
}

TEST_CASE("a disk that fails at any call is reported and loses nothing") {
  Draws draws(16);
  for (const int error : {ENOSPC, EIO, EDQUOT}) {
    const Kept kept(draws, 2);
    const std::string old_sessions = sessions_at(kept.file);
    const BookedSession session = any_session(draws);
    const std::string why = std::generic_category().message(error);
    bool failed = true;
    for (int at = 0; failed; ++at) {
      REQUIRE(at < 100);
      INFO(why << " before call " << at);
      failed = false;
      try {
        change_book(kept.file, WhenMissing::refuse, adding(session),
                    ending(at, 700, [&] { throw std::system_error(error, std::generic_category()); }));
      } catch (const InputError&) {
        FAIL("the disk is no mistake of the user");
      } catch (const Error& e) {
        failed = true;
        CHECK_THAT(e.what(), Catch::Contains("could not be written") && Catch::Contains(why));
      }
      CHECK(paths_in(kept.folder.path()) == std::vector<fs::path>{"pupil.json", "pupil.json.previous"});
      CHECK(load_book(kept.file).warnings.empty());
      if (failed && sessions_at(kept.file) != old_sessions)
        break;  // only the folder could not be synced: the new version is there
    }
    CHECK(load_book(kept.file).book.sessions.size() == 3);
  }
}

TEST_CASE("a real limit on the size of files is reported and loses nothing") {
  Draws draws(17);
  const Kept kept(draws, 3);
  const std::string old_sessions = sessions_at(kept.file);
  const int code = in_child([&] {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    setrlimit(RLIMIT_FSIZE, &limit);
    try {
      change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
    } catch (const InputError&) {
      return 2;
    } catch (const Error& e) {
      return std::string(e.what()).find(std::generic_category().message(EFBIG)) != std::string::npos ? 1 : 3;
    }
    return 0;
  });
  CHECK(code == 1);
  CHECK(sessions_at(kept.file) == old_sessions);
}

TEST_CASE("a change that throws changes nothing") {
  Draws draws(18);
  const Kept kept(draws, 2);
  const std::string before = text_at(kept.file);
  CHECK_THROWS_AS(change_book(kept.file, WhenMissing::refuse, [](Book& book) { remove_session(book, 99); }),
                  InputError);
  CHECK_THROWS_AS(change_book(kept.file, WhenMissing::refuse, [](Book& book) { book.pupil = "two\nlines"; }),
                  InputError);
  CHECK(text_at(kept.file) == before);
}

TEST_CASE("a second writer is told so, and a dead one holds nobody up") {
  Draws draws(19);
  const Kept kept(draws, 1);
  {
    const WriteLock lock(kept.file);
    CHECK_THROWS_WITH(change_book(kept.file, WhenMissing::refuse, adding(any_session(draws))),
                      Catch::Contains("is being changed by another program") && Catch::Contains("pupil.json.lock"));
    CHECK_THROWS_AS(undo_change(kept.file), InputError);
    CHECK(load_book(kept.file).book.sessions.size() == 1);  // reading needs no lock
  }
  CHECK(in_child([&] {
          const WriteLock lock(kept.file);
          die();
          return 0;
        }) == -SIGKILL);
  change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
  CHECK(load_book(kept.file).book.sessions.size() == 2);
}

TEST_CASE("many writers at once lose no session of one that succeeded") {
  Draws draws(20);
  const ScratchFolder folder;
  const fs::path file = folder.path() / "pupil.json";
  const BookedSession session = any_session(draws);
  constexpr int kWriters = 6, kSessions = 10;
  std::vector<pid_t> writers;
  for (int i = 0; i < kWriters; ++i) {
    const pid_t writer = fork();
    if (writer == 0) {
      int kept = 0;
      while (kept < kSessions) {
        try {
          change_book(file, WhenMissing::begin, adding(session));
          ++kept;
        } catch (const InputError&) {  // another has the lock
          usleep(200);
        } catch (...) {
          _exit(1);
        }
      }
      _exit(0);
    }
    writers.push_back(writer);
  }
  // Whoever reads meanwhile sees a whole book, with ever more sessions.
  std::size_t seen = 0;
  for (std::size_t running = writers.size(); running > 0;) {
    if (fs::exists(file)) {
      const LoadedBook loaded = load_book(file);
      CHECK(loaded.warnings.empty());
      CHECK(loaded.book.sessions.size() >= seen);
      seen = loaded.book.sessions.size();
    }
    int status = 0;
    if (waitpid(-1, &status, WNOHANG) > 0) {
      --running;
      CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
    }
  }
  CHECK(load_book(file).book.sessions.size() == kWriters * kSessions);
  CHECK(load_book(file).book.version == kWriters * kSessions);
}

TEST_CASE("undo brings back the version before, and undoing that brings it back again") {
  Draws draws(21);
  const Kept kept(draws, 3);
  const std::string three = sessions_at(kept.file);
  change_book(kept.file, WhenMissing::refuse, [](Book& book) { remove_session(book, 2); });
  const std::string two = sessions_at(kept.file);
  const LoadedBook undone = undo_change(kept.file);
  CHECK(undone.book.version == 5);
  CHECK(sessions_at(kept.file) == three);
  CHECK(undo_change(kept.file).book.version == 6);
  CHECK(sessions_at(kept.file) == two);
  // A number is not given again after an undone session.
  change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
  undo_change(kept.file);
  const Book book = change_book(kept.file, WhenMissing::refuse, adding(any_session(draws))).book;
  CHECK(std::count_if(book.sessions.begin(), book.sessions.end(),
                      [](const BookedSession& s) { return s.number == 9; }) == 1);
  // A damaged file goes back to the version before it, too.
  put(kept.file, "{");
  CHECK(undo_change(kept.file).book.sessions.size() == 2);
  CHECK(load_book(kept.file).warnings.empty());
}

TEST_CASE("what cannot be undone says why") {
  Draws draws(22);
  const Kept kept(draws, 1);
  CHECK_THROWS_WITH(undo_change(kept.file), Catch::EndsWith("nothing can be undone: its previous version is missing"));
  fs::copy_file(kept.file, previous_of(kept.file));  // what a writer killed between its two renames leaves
  CHECK_THROWS_WITH(undo_change(kept.file), Catch::EndsWith("nothing can be undone: its previous version is the same"));
}

TEST_CASE("places where no book can be are named, and nothing is left there") {
  Draws draws(23);
  const ScratchFolder folder;
  const auto change = [&](const fs::path& file, WhenMissing when) {
    change_book(file, when, adding(any_session(draws)));
  };
  const fs::path nowhere = folder.path() / "none" / "pupil.json", missing = folder.path() / "pupil.json";
  CHECK_THROWS_WITH(change(nowhere, WhenMissing::begin),
                    Catch::Contains("there is no folder") && Catch::Contains("make it first"));
  CHECK_THROWS_WITH(change(missing, WhenMissing::refuse), Catch::EndsWith("there is no such book"));
  CHECK_THROWS_WITH(undo_change(missing), Catch::EndsWith("there is no such book"));
  CHECK_THROWS_WITH(load_book(folder.path()), Catch::Contains("is a folder"));
  CHECK(fs::is_empty(folder.path()));
}

TEST_CASE("a link that leads to nothing is no place for a new book: the drive may be missing") {
  Draws draws(25);
  const ScratchFolder folder;
  const fs::path link = folder.path() / "pupil.json", loop = folder.path() / "loop.json";
  fs::create_symlink(folder.path() / "drive" / "pupil.json", link);
  fs::create_symlink(loop, loop);
  for (const fs::path& file : {link, loop}) {
    const auto refused = Catch::Contains("which cannot be reached");
    CHECK_THROWS_WITH(change_book(file, WhenMissing::begin, adding(any_session(draws))), refused);
    CHECK_THROWS_WITH(load_book(file), refused);
    CHECK_THROWS_WITH(undo_change(file), refused);
  }
  CHECK(paths_in(folder.path()) == std::vector<fs::path>{"loop.json", "pupil.json"});
  CHECK(fs::is_symlink(link));
}

TEST_CASE("a read-only book is left alone, and a second name of one keeps the old version, said once") {
  Draws draws(26);
  const Kept kept(draws, 2);
  const std::string before = text_at(kept.file);
  chmod(kept.file.c_str(), 0444);
  CHECK_THROWS_WITH(change_book(kept.file, WhenMissing::refuse, adding(any_session(draws))),
                    Catch::Contains("is read-only"));
  CHECK_THROWS_WITH(undo_change(kept.file), Catch::Contains("is read-only"));
  CHECK(text_at(kept.file) == before);
  CHECK(load_book(kept.file).book.sessions.size() == 2);
  chmod(kept.file.c_str(), 0644);
  const fs::path second = kept.folder.path() / "second.json";
  fs::create_hard_link(kept.file, second);
  const LoadedBook changed = change_book(kept.file, WhenMissing::refuse, adding(any_session(draws)));
  REQUIRE(changed.warnings.size() == 1);
  CHECK_THAT(changed.warnings[0], Catch::Contains("had a second name"));
  CHECK(text_at(second) == before);
  CHECK(load_book(kept.file).book.sessions.size() == 3);
  CHECK(change_book(kept.file, WhenMissing::refuse, adding(any_session(draws))).warnings.empty());
}

TEST_CASE("a lock is there only while somebody writes, refused or not, and nothing of the user's is taken for one") {
  Draws draws(27);
  const ScratchFolder folder;
  const fs::path file = folder.path() / "pupil.json", lock = file.string() + ".lock";
  const auto refuse = [](Book&) { throw InputError("no"); };
  CHECK_THROWS_WITH(change_book(file, WhenMissing::begin, refuse), "no");
  CHECK(fs::is_empty(folder.path()));
  change_book(file, WhenMissing::begin, [&](Book& book) {
    CHECK(fs::exists(lock));
    add_session(book, any_session(draws));
  });
  CHECK_FALSE(fs::exists(lock));
  // A link there is not followed, a pipe does not hold anybody up, and a file's text is not lost.
  const fs::path other = folder.write("other", "text");
  fs::create_symlink(other, lock);
  CHECK_THROWS_AS(change_book(file, WhenMissing::begin, adding(any_session(draws))), InputError);
  fs::remove(lock);
  REQUIRE(mkfifo(lock.c_str(), 0600) == 0);
  CHECK_THROWS_WITH(change_book(file, WhenMissing::begin, adding(any_session(draws))),
                    Catch::Contains("not a plain file"));
  fs::remove(lock);
  put(lock, "mine");
  change_book(file, WhenMissing::begin, adding(any_session(draws)));
  CHECK(text_at(lock) == "mine");
  CHECK(text_at(other) == "text");
}

TEST_CASE("a link to a book is followed, and who may read it stays so") {
  Draws draws(24);
  const Kept kept(draws, 1);
  const fs::path link = kept.folder.path() / "link.json";
  fs::create_symlink(kept.file, link);
  chmod(kept.file.c_str(), 0600);
  change_book(link, WhenMissing::refuse, adding(any_session(draws)));
  CHECK(fs::is_symlink(link));
  CHECK(load_book(kept.file).book.sessions.size() == 2);
  for (const fs::path& file : {kept.file, previous_of(kept.file)}) {
    struct stat status {};
    REQUIRE(stat(file.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
  }
}
