#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright::cli {

int cmd_demo(const Session& session) {
  Findings findings;
  const std::string_view text = Catalogue::built_in("pupils/demo.json");
  const auto pupil = read_pupil(text, {}, session.catalogue, findings);
  if (!pupil) throw FileError("the built-in demonstration pupil", findings);
  if (!session.json) {
    session.out << wrapped("A demonstration: this pupil is invented. For yours: loftwright advise PUPIL.json") << "\n";
  }
  return give_advice(session, *pupil, text);
}

}  // namespace loftwright::cli
