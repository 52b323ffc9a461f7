#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/io/pupil_file.hpp"

namespace loftwright::cli {

int cmd_demo(const Session& session) {
  Findings findings;
  const auto pupil = read_pupil(Catalogue::built_in("pupils/demo.json"), {}, session.catalogue, findings);
  if (!pupil) throw FileError("the built-in demonstration pupil", findings);
  if (!session.json) {
    session.out << wrapped("A demonstration: this pupil is invented. For yours: loftwright advise PUPIL.json") << "\n";
  }
  return give_advice(session, *pupil);
}

}  // namespace loftwright::cli
