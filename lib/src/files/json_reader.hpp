// JSON tree to plain data, so that one reading reports every mistake, placed by JSON pointer. Nothing here throws for
// what is in the file; see Findings.
#pragma once

#include <functional>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "files/json_text.hpp"
#include "loftwright/core/findings.hpp"
#include "loftwright/core/quantity.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

// Whether the document is an object of that "format" ("loftwright-ball/1"); says so when it is of another or newer.
bool format_is(const Json& document, std::string_view format, Findings& findings);

// A quantity as it was found.
struct TypedQuantity {
  double si;
  const Unit* unit;  // as typed
  std::string place;

  std::string shown(double value) const;  // [SI] -> "82 mph", in the unit typed
  std::string shown() const { return shown(si); }
};

struct TypedInterval {
  Interval si;
  const Unit* unit;
  std::string place;
};

enum class Need { required, optional };
enum class Ends { closed, may_be_open };  // may_be_open: one end of [low, high] may be null

template <class E>
using Words = std::initializer_list<std::pair<std::string_view, E>>;

class ObjectReader;
using ReadMembers = std::function<void(ObjectReader&)>;

// Hands `value` to `read` as an object, then reports what is missing and what is unknown. False when it is no object.
bool read_object(const Json& value, const std::string& place, Findings& findings, const ReadMembers& read);

// The members of one object. Whatever is asked for by name becomes a known key. Every reading function gives nothing
// when the member is absent or wrong; wrong and required-but-absent are reported.
class ObjectReader {
 public:
  bool has(std::string_view name) const;  // the key itself, or a quantity's base name with any unit
  const std::string& place() const { return place_; }
  Findings& findings() { return findings_; }
  void error(const std::string& place, std::string message);
  void warn(const std::string& place, std::string message);

  const Json* member(std::string_view key, Need need);
  std::optional<std::string> text(std::string_view key, Need need);
  std::optional<double> number(std::string_view key, const Range& range, Need need);
  std::optional<double> number(Quantity which, Need need);
  std::optional<int> whole(std::string_view key, int low, int high, Need need);
  bool object(std::string_view key, Need need, const ReadMembers& read);  // false: absent or no object
  template <class E>
  std::optional<E> word(std::string_view key, Words<E> words, Need need);

  // The member whose key is `base`, an underscore and the suffix of a unit of the dimension; two such are an error.
  struct Found {
    const Json* value;
    const Unit* unit;
    std::string place;
  };
  std::optional<Found> find(std::string_view base, Dimension dimension, Need need);
  std::optional<TypedQuantity> quantity(std::string_view base, Dimension dimension, const Range& range, Need need);
  std::optional<TypedQuantity> quantity(Quantity which, Need need);  // key, dimension and range are the table's
  std::optional<TypedInterval> interval(std::string_view base, Dimension dimension, const Range& range, Ends ends,
                                        Need need);

  // A number inside what was found. `unit` null: a bare number.
  std::optional<double> value_in(const Json& value, const std::string& place, const Unit* unit, const Range& range);
  std::optional<std::vector<double>> values_in(const Json& list, const std::string& place, const Unit* unit,
                                               const Range& range);

 private:
  friend bool read_object(const Json&, const std::string&, Findings&, const ReadMembers&);
  ObjectReader(const Json& object, std::string place, Findings& findings)
      : object_(object), place_(std::move(place)), findings_(findings) {}

  struct Known {
    std::string name;                    // the key, or a quantity's base name
    std::optional<Dimension> dimension;  // of a quantity
    bool required;
    bool seen;
  };
  void finish();
  const Known* base_of(std::string_view key) const;
  std::string unknown(std::string_view key) const;
  void not_one_of(const std::string& place, const std::string& found, const std::vector<std::string>& words);

  const Json& object_;
  std::string place_;
  Findings& findings_;
  std::vector<Known> known_;
};

template <class E>
std::optional<E> ObjectReader::word(std::string_view key, Words<E> words, Need need) {
  const std::optional<std::string> found = text(key, need);
  if (!found) return std::nullopt;
  std::vector<std::string> names;
  for (const auto& [name, value] : words) {
    if (name == *found) return value;
    names.emplace_back(name);
  }
  not_one_of(below(place_, key), *found, names);
  return std::nullopt;
}

// One number of a plain struct S and how a file spells it. Tables of fields keep readers short.
template <class S>
struct Field {
  std::string_view key;                // a quantity's base name, or the whole key of a bare number
  std::optional<Dimension> dimension;  // none: a bare number
  double S::*member;
  Range range;
  Need need = Need::required;
};

// The row of a quantity: key, dimension and range are the table's.
template <class S>
constexpr Field<S> field(Quantity quantity, double S::*member, Need need = Need::required) {
  const QuantityInfo& q = about(quantity);
  return {q.key, is_bare(q) ? std::nullopt : std::optional(q.dimension), member, q.allowed, need};
}

// Fills in what is there. The quantities read, by key, for checks that span several.
template <class S>
std::vector<std::pair<std::string_view, TypedQuantity>> read_fields(ObjectReader& reader,
                                                                    std::span<const Field<S>> fields, S& out) {
  std::vector<std::pair<std::string_view, TypedQuantity>> read;
  for (const Field<S>& f : fields) {
    if (f.dimension) {
      const std::optional<TypedQuantity> q = reader.quantity(f.key, *f.dimension, f.range, f.need);
      if (!q) continue;
      out.*f.member = q->si;
      read.emplace_back(f.key, *q);
    } else if (const std::optional<double> value = reader.number(f.key, f.range, f.need)) {
      out.*f.member = *value;
    }
  }
  return read;
}

}  // namespace loftwright
