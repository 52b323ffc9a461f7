// What the fuzz targets share. A target takes any bytes and stops the process when something that must hold does not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>

namespace loftwright::fuzz {

// What takes the bytes. libFuzzer makes a program of each; replay.cpp one of all, to which it is known by its name.
using Target = int (*)(const std::uint8_t* data, std::size_t size);
#ifdef LOFTWRIGHT_REPLAY
inline std::map<std::string_view, Target>& targets() {
  static std::map<std::string_view, Target> all;
  return all;
}
#define LOFTWRIGHT_FUZZ_TARGET(name)                                                                \
  static int name##_target(const std::uint8_t*, std::size_t);                                       \
  [[maybe_unused]] static const bool name##_known = targets().emplace(#name, name##_target).second; \
  static int name##_target
#else
#define LOFTWRIGHT_FUZZ_TARGET(name) extern "C" int LLVMFuzzerTestOneInput
#endif

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
