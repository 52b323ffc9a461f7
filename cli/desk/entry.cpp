// What loader.js calls: room for a call's bytes, then the call, which leaves the answer's bytes in the same room.
#include <cstddef>
#include <string>

#include "door.hpp"

static std::string bytes;

extern "C" {

[[clang::export_name("room")]] char* room(std::size_t size) {
  bytes.assign(size, '\0');
  return bytes.data();
}

// The answer's size; `room_at` says where it begins.
[[clang::export_name("answer")]] std::size_t answer() {
  bytes = loftwright::desk::bytes_of(loftwright::desk::answer(loftwright::desk::call_from(bytes)));
  return bytes.size();
}

[[clang::export_name("room_at")]] const char* room_at() { return bytes.data(); }
}
