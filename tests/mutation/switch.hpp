// Every mutant is compiled in and the environment picks the one that acts; mutate.py writes the calls and includes this
// into every file. With none picked, each call gives to the last bit what the source says. What may be a vector is
// inlined: functions for one processor pass it otherwise than those for all.
#pragma once

#include <concepts>
#include <cstdlib>

namespace mutant {

inline const int kActive = std::getenv("LOFTWRIGHT_MUTANT") ? std::atoi(std::getenv("LOFTWRIGHT_MUTANT")) : 0;

inline double number(int id, double written, double other) { return kActive == id ? other : written; }

struct Switch {
  bool on;
  explicit Switch(int id) : on(kActive == id) {}
};

// a + b -> a + sign * b, -b -> -sign * b
struct Sign : Switch {
  using Switch::Switch;
  Sign operator-() const {
    Sign other = *this;
    other.on = !on;
    return other;
  }
  template <class T>
  [[gnu::always_inline]] friend inline T operator*(Sign s, const T& x) {
    return s.on ? T(-x) : x;
  }
};

// a * b -> a * swap * b, which is a / b when on; -(a * b) where that means nothing. The other way for a / b.
struct Swap : Switch {
  using Switch::Switch;
};
// a < b -> a < negate < b; a && b -> a && negate ^ b
struct Negate : Switch {
  using Switch::Switch;
  template <class T>
  friend bool operator^(Negate n, const T& b) {
    return n.on ? !b : static_cast<bool>(b);
  }
};

template <class A, class How>
struct Left {
  const A& a;
  How how;
};

template <class A>
Left<A, Swap> operator*(const A& a, Swap how) {
  return {a, how};
}
template <class A>
Left<A, Swap> operator/(const A& a, Swap how) {
  return {a, how};
}
template <class A, class B>
[[gnu::always_inline]] inline auto operator*(Left<A, Swap> l, const B& b) {
  using Whole = decltype(l.a * b);
  if constexpr (requires {
                  { l.a / b } -> std::same_as<Whole>;
                }) {
    return l.how.on ? l.a / b : l.a * b;
  } else {
    return l.how.on ? Whole(-(l.a * b)) : l.a * b;
  }
}
template <class A, class B>
[[gnu::always_inline]] inline auto operator/(Left<A, Swap> l, const B& b) {
  using Whole = decltype(l.a / b);
  if constexpr (requires {
                  { l.a* b } -> std::same_as<Whole>;
                }) {
    return l.how.on ? l.a * b : l.a / b;
  } else {
    return l.how.on ? Whole(-(l.a / b)) : l.a / b;
  }
}
// a & b <-> a | b, of what lanes compare
template <class A>
Left<A, Swap> operator&(const A& a, Swap how) {
  return {a, how};
}
template <class A>
Left<A, Swap> operator|(const A& a, Swap how) {
  return {a, how};
}
template <class A, class B>
auto operator&(Left<A, Swap> l, const B& b) {
  return l.how.on ? l.a | b : l.a & b;
}
template <class A, class B>
auto operator|(Left<A, Swap> l, const B& b) {
  return l.how.on ? l.a & b : l.a | b;
}

#define LOFTWRIGHT_COMPARISON(op)                       \
  template <class A>                                    \
  Left<A, Negate> operator op(const A& a, Negate how) { \
    return {a, how};                                    \
  }                                                     \
  template <class A, class B>                           \
  auto operator op(Left<A, Negate> l, const B& b) {     \
    const auto holds = l.a op b;                        \
    return l.how.on ? decltype(holds)(!holds) : holds;  \
  }
LOFTWRIGHT_COMPARISON(<)
LOFTWRIGHT_COMPARISON(>)
LOFTWRIGHT_COMPARISON(<=)
LOFTWRIGHT_COMPARISON(>=)
LOFTWRIGHT_COMPARISON(==)
LOFTWRIGHT_COMPARISON(!=)
#undef LOFTWRIGHT_COMPARISON

}  // namespace mutant
