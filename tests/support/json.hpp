// The document of a text, its parser compiled once for all tests: in each file of them it took the compiler a second
// more.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string_view>

namespace loftwright::test {

// Throws Json::parse_error. For nlohmann::json and nlohmann::ordered_json.
template <class Json>
Json parsed(std::string_view text);

}  // namespace loftwright::test
