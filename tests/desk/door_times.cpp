// How long the door takes natively, beside times.mjs: door_times REPEATS FILE ARGS..., FILE the only file there, under
// its own name. Prints the median, in milliseconds of processor time, which other work on the machine hardly moves.
#include <algorithm>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

#include "door.hpp"

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  std::ostringstream text;
  text << std::ifstream(argv[2], std::ios::binary).rdbuf();
  const loftwright::desk::Call call{
      {argv + 3, argv + argc}, "", {{std::filesystem::path(argv[2]).filename().string(), text.str()}}};
  std::vector<double> times(static_cast<std::size_t>(std::max(1, std::atoi(argv[1]))));
  for (double& time : times) {
    const std::clock_t start = std::clock();
    const loftwright::desk::Answer answer = loftwright::desk::answer(call);
    time = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    if (answer.code > 1) {
      std::cerr << answer.err;
      return 1;
    }
  }
  std::nth_element(times.begin(), times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2), times.end());
  std::cout << times[times.size() / 2] << "\n";
}
