// One function a command; each lives in cmd_<name>.cpp (those of a group together) and returns an exit code.
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "app.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/session_pupil.hpp"
#include "options.hpp"

namespace loftwright::cli {

// What a command works with.
struct Session {
  const Values& values;
  Catalogue catalogue;
  UnitSystem units;
  bool json;
  bool quiet;
  std::istream& in;
  std::ostream& out;  // the answer: nobody sees it before the command has come to its end
  std::ostream& err;  // everything else
  std::string& kept;  // what stands on disk by then, in words: "the change is kept"
};

int cmd_demo(const Session& session);
int cmd_fly(const Session& session);
int cmd_strike(const Session& session);
int cmd_arc(const Session& session);
int cmd_advise(const Session& session);
int cmd_clinic(const Session& session);
int cmd_rack(const Session& session);
int cmd_chart(const Session& session);
int cmd_compare(const Session& session);
int cmd_shots(const Session& session);
int cmd_heads(const Session& session);
int cmd_tune(const Session& session);
int cmd_check(const Session& session);
int cmd_book_add(const Session& session);
int cmd_book_list(const Session& session);
int cmd_book_history(const Session& session);
int cmd_book_edit(const Session& session);
int cmd_book_remove(const Session& session);
int cmd_book_undo(const Session& session);
int cmd_book_export(const Session& session);
int cmd_lessons(const Session& session);

// All of standard input, as much as read_text would take from a file. Throws InputError, which says what is expected.
std::string from_pipe(const Session& session, std::string_view expected);

// What is said of an answer that did not get out.
inline constexpr std::string_view kNotWritten =
    "the answer could not be written whole: the disk is full, or nothing takes it";

// Throws InputError when `file`, of the option `name`, is a file that another option or word of the line is read from.
void check_is_no_input(const Session& session, std::string_view name, std::string_view file);

// What --into names may be written: it is not there, unless --overwrite is given, and no file that is read but the
// command's first word. Throws InputError.
void check_into(const Session& session, const std::string& into);

// Cores to use, as --threads says.
int threads_given(const Session& session);

// What --academy names; none: it is not given.
std::optional<NamedAcademy> academy_given(const Session& session);

// Says it on the error stream, unless the user wants quiet.
void warn(const Session& session, std::string_view sentence);

// What demo and advise do once there is a pupil; `text` is the file it was read from, `taken` what a book gave.
int give_advice(const Session& session, const Pupil& as_given, std::string_view text,
                const SessionPupil* taken = nullptr);

}  // namespace loftwright::cli
