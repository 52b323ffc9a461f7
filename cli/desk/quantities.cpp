// The tables of units and of quantities as JSON, for those who make the page: a program of its own, run by node while
// the page is built, so that the page says ranges, units and decimals as the program does. Ranges and numbers are in
// the unit named beside them.
#include <nlohmann/json.hpp>

#include "loftwright/core/quantity.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/report/numbers.hpp"

namespace {

using namespace loftwright;
using Json = nlohmann::ordered_json;

std::string_view suffix_of(std::string_view symbol) { return symbol.empty() ? symbol : unit(symbol).suffix; }

Json range_of(const Range& range) {
  if (!range.known()) return nullptr;
  return {{"low", range.low}, {"high", range.high}, {"unit", suffix_of(range.unit)}};
}

Json style_of(Shown what) {
  const Style& style = kStyles[index_of(what)];
  return {{"yards", suffix_of(style.yards)},
          {"metres", suffix_of(style.metres)},
          {"decimals", style.decimals},
          {"step", style.step}};
}

Json tables() {
  Json out{{"units", Json::object()}, {"quantities", Json::object()}};
  for (const Unit& u : units()) {
    out["units"][std::string(u.suffix)] = {
        {"symbol", u.symbol}, {"dimension", name_of(u.dimension)}, {"factor", u.factor}, {"offset", u.offset}};
  }
  for (const QuantityInfo& q : kQuantities) {
    out["quantities"][std::string(q.key)] = {{"title", q.title},
                                             {"typed", suffix_of(q.typed)},
                                             {"allowed", range_of(q.allowed)},
                                             {"shown", style_of(q.shown)}};
  }
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    Json& one = out["quantities"][std::string(about(part.quantity).key)];
    one["spread"] = range_of(part.sd);
    one["change"] = range_of(part.change);
  }
  for (const Reading reading : kAllOf<Reading>)
    out["quantities"][std::string(about(quantity_of(reading)).key)]["difference"] =
        style_of(difference_shown_as(reading));
  return out;
}

}  // namespace

extern "C" [[clang::export_name("quantities")]] const char* quantities() {
  static const std::string text = tables().dump();
  return text.c_str();
}
