// What the fuzz targets share. A target takes any bytes and stops the process when something that must hold does not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace loftwright::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

inline void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "must hold: %s\n", what);
  std::abort();
}

// The text before the first `delimiter`, which `rest` loses with it.
inline std::string_view take(std::string_view& rest, std::string_view delimiter) {
  const std::size_t at = rest.find(delimiter);
  const std::string_view taken = rest.substr(0, at);
  rest.remove_prefix(at == std::string_view::npos ? rest.size() : at + delimiter.size());
  return taken;
}

}  // namespace loftwright::fuzz
