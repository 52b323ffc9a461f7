#include "json.hpp"

#include <nlohmann/json.hpp>

namespace loftwright::test {

template <class Json>
Json parsed(std::string_view text) {
  return Json::parse(text);
}

template nlohmann::json parsed(std::string_view);
template nlohmann::ordered_json parsed(std::string_view);

}  // namespace loftwright::test
