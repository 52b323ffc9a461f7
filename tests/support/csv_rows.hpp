// Rows of the reference tables: plain numbers and words, no quoting.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace loftwright::test {

inline std::vector<std::vector<std::string>> csv_rows(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::vector<std::vector<std::string>> rows;
  std::string line, cell;
  std::getline(file, line);  // heads
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    rows.emplace_back();
    while (std::getline(cells, cell, ',')) rows.back().push_back(cell);
  }
  return rows;
}

}  // namespace loftwright::test
