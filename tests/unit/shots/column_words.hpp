#pragma once
#include <fstream>
#include <nlohmann/json.hpp>

#include "loftwright/shots/columns.hpp"

namespace loftwright::test {

inline ColumnMap column_words() {
  std::ifstream file(std::string(LOFTWRIGHT_SOURCE_DIR) + "/data/shots/columns.json");
  const auto j = nlohmann::json::parse(file);
  ColumnMap map;
  const auto words = [](const nlohmann::json& list) {
    std::vector<std::string> out;
    for (const auto& w : list) out.push_back(fold(w.get<std::string>()));
    return out;
  };
  map.label = words(j["label"]);
  map.date = words(j["date"]);
  map.club = words(j["club"]);
  map.missing = words(j["missing"]);
  map.summary = words(j["summary"]);
  for (const auto& [key, value] : j["readings"].items()) {
    auto& w = map.readings[index_of(*find_reading(key))];
    w.heads = words(value["heads"]);
    if (value.contains("unit")) w.unit_if_missing = find_unit(value["unit"].get<std::string>());
    if (value.contains("plus")) w.plus = words(value["plus"]);
    if (value.contains("minus")) w.minus = words(value["minus"]);
  }
  return map;
}

}  // namespace loftwright::test
