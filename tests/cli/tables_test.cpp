// Schemas and documents say of every number what its table says.
#include "folders.hpp"
#include "kept.hpp"
#include "written_tables.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("keys and ranges in the schemas and in docs/pupil-file.md are the tables'") {
  const std::filesystem::path source = LOFTWRIGHT_SOURCE_DIR;
  for (const cli::WrittenFile& file : cli::written_tables(source)) check_kept(source / file.path, file.text);
}
