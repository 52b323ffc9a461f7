#include "page_file.hpp"

#include <fmt/format.h>

#include <ostream>

#include "layout.hpp"
#include "loftwright/core/error.hpp"
#include "loftwright/report/pages.hpp"

namespace loftwright::cli {

PageFile::PageFile(const Session& session) : session_(session) {
  if (!session.values.given("html")) return;
  file_ = session.values.text("html");
  try {
    check_page_name(*file_);
  } catch (const InputError& error) {
    throw InputError(fmt::format("--html: {}", error.what()));
  }
  check_is_no_input(session, "html", *file_);
}

void PageFile::write(const std::string& html) const {
  write_page(*file_, html);
  session_.kept = "the page is written";
  if (!session_.json) session_.out << "\n" << wrapped(fmt::format("Page written: {}", printable(*file_)));
}

}  // namespace loftwright::cli
