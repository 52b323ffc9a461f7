/// @file
/// Errors a caller can act on. Each says where, what was found and what is allowed; nothing in the library prints.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace loftwright {

struct Error : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A value, file or data set that cannot be used: where it stands, what it says, what would be allowed.
struct InputError : Error {
  using Error::Error;
};

/// Throws InputError unless `value` is finite and within [low, high]. `name` and `unit` are for the message only.
void check_range(std::string_view name, double value, double low, double high, std::string_view unit);

}  // namespace loftwright
