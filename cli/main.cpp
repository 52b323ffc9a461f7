#include <iostream>

#include "app.hpp"

int main(int argc, char** argv) {
  return loftwright::cli::run({argv + 1, argv + argc}, std::cin, std::cout, std::cerr);
}
