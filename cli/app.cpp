#include "app.hpp"

namespace loftwright::cli {

int run(const std::vector<std::string>&, std::istream&, std::ostream&, std::ostream&) { return kInternal; }

}  // namespace loftwright::cli
