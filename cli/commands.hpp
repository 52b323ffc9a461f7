// One function a command; each lives in cmd_<name>.cpp and returns an exit code.
#pragma once

#include <iosfwd>

#include "app.hpp"
#include "loftwright/io/catalogue.hpp"
#include "loftwright/io/words.hpp"
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
  std::ostream& out;  // the answer
  std::ostream& err;  // everything else
};

int cmd_demo(const Session& session);
int cmd_fly(const Session& session);
int cmd_strike(const Session& session);
int cmd_arc(const Session& session);
int cmd_advise(const Session& session);
int cmd_check(const Session& session);

// What demo and advise do once there is a pupil.
int give_advice(const Session& session, const Pupil& pupil);

}  // namespace loftwright::cli
