// write_tables SOURCE_FOLDER: schemas and documents as the tables of numbers say, for contributors alone.
#include <cstdio>
#include <exception>
#include <fstream>

#include "written_tables.hpp"

int main(int argc, char** argv) {
  using namespace loftwright::cli;
  if (argc != 2) return 2;
  try {
    for (const WrittenFile& file : written_tables(argv[1])) {
      std::ofstream out(std::filesystem::path(argv[1]) / file.path, std::ios::binary);
      if (!(out << file.text << std::flush)) {
        std::perror(file.path.c_str());
        return 1;
      }
    }
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
  return 0;
}
