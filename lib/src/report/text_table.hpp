// A table as text for people, which the screen and the page both lay out.
#pragma once

#include <string>
#include <vector>

namespace loftwright {

// The first `heads` rows are heads; the first column names the rows. Without rows there is no table.
struct TextTable {
  std::string title;
  std::vector<std::vector<std::string>> rows;
  std::size_t heads = 1;
  std::vector<std::string> notes;  // sentences to stand beneath
  bool stacks = false;             // on a page as narrow as a telephone each row is a block: it is read there
};

}  // namespace loftwright
