// An array with one entry for each word of an enum, in their order, indexed by the word.
#pragma once

#include <array>
#include <cstddef>

namespace loftwright {

/// How many words an enum has; they count up from zero. Said beside each enum that indexes something.
template <class E>
inline constexpr std::size_t kCountOf = 0;
/// The place of a word, from 0.
template <class E>
constexpr std::size_t index_of(E word) {
  return static_cast<std::size_t>(word);
}
/// One entry for each word of E.
template <class E, class T>
struct EnumArray {
  static_assert(kCountOf<E> > 0, "kCountOf says how many words the enum has");
  std::array<T, kCountOf<E>> values;  ///< in the order of E

  constexpr T& operator[](E word) { return values[index_of(word)]; }              ///< of a word
  constexpr const T& operator[](E word) const { return values[index_of(word)]; }  ///< of a word
  static constexpr std::size_t size() { return kCountOf<E>; }                     ///< how many
  constexpr auto begin() { return values.begin(); }                               ///< first entry
  constexpr auto begin() const { return values.begin(); }                         ///< first entry
  constexpr auto end() { return values.end(); }                                   ///< beyond the last
  constexpr auto end() const { return values.end(); }                             ///< beyond the last
  constexpr void fill(const T& value) { values.fill(value); }                     ///< all alike
  bool operator<(const EnumArray& other) const { return values < other.values; }  ///< by the first entry that differs
  bool operator==(const EnumArray&) const = default;                              ///< entry by entry
};

/// Every word of an enum, to go through them.
template <class E>
inline constexpr auto kAllOf = [] {
  std::array<E, kCountOf<E>> all{};
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = static_cast<E>(i);
  return all;
}();

}  // namespace loftwright
