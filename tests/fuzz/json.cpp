// JSON text to tree, and on to the reader of whatever file of ours it says it is.
#include "loftwright/report/json.hpp"
#include "files/json_text.hpp"
#include "loftwright/files/check_file.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::fuzz;

LOFTWRIGHT_FUZZ_TARGET(json)(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = text_of(data, size);
  Findings findings;
  const auto tree = parse_json(text, findings);
  must(tree || has_errors(findings), "text without a tree has an error");
  if (tree) {
    Findings none;
    const auto again = parse_json(tree->dump(), none);
    must(again && none.empty() && *again == *tree, "a tree written and read again is the same");
    must(!parse_json(std::string(text) + "]", none), "all of the text was read");
  }
  const Findings all = tree ? check_text(text, "", Catalogue()) : findings;
  for (const Finding& finding : all) must(!finding.message.empty(), "a finding says something");
  must(!check_json("file.json", all).empty(), "findings can be written as JSON");
  return 0;
}
