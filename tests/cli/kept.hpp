// A text that is kept in the tree and may be written anew: LOFTWRIGHT_APPROVE=1 does.
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "process.hpp"

namespace loftwright::test {

inline void check_kept(const std::filesystem::path& path, const std::string& text) {
  if (std::getenv("LOFTWRIGHT_APPROVE")) std::ofstream(path, std::ios::binary) << text;
  INFO(path << " is not what the program says; if the change is meant, run the test with LOFTWRIGHT_APPROVE=1");
  CHECK((file_contents(path) == text));
}

}  // namespace loftwright::test
