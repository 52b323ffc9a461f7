#include "report/page/svg.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "draws.hpp"

using namespace loftwright;

TEST_CASE("ticks are even, inside, and no more than asked for", "[page]") {
  CHECK(even_ticks(0.0, 232.0, 6) == std::vector<double>{0.0, 50.0, 100.0, 150.0, 200.0});
  CHECK(even_ticks(-6.0, 4.0, 8) == std::vector<double>{-6.0, -4.0, -2.0, 0.0, 2.0, 4.0});
  std::mt19937_64 random(1);
  for (int i = 0; i < 200; ++i) {
    const double low = std::uniform_real_distribution<double>(-100.0, 100.0)(random);
    const double high = low + std::exp(std::uniform_real_distribution<double>(-3.0, 6.0)(random));
    const std::vector<double> ticks = even_ticks(low, high, 6);
    CAPTURE(low, high, ticks);
    REQUIRE(!ticks.empty());
    CHECK(ticks.size() <= 7);
    CHECK(ticks.front() >= low - 1e-6);
    CHECK(ticks.back() <= high + 1e-6);
  }
}

TEST_CASE("numbers have no needless tail and no minus zero", "[page]") {
  CHECK(short_number(12.50) == "12.5");
  CHECK(short_number(-0.00001) == "0");
  CHECK(short_number(180.0) == "180");
}

TEST_CASE("a label that would touch another, or leave the drawing, is not drawn", "[page]") {
  Drawing d("test", 200.0, 100.0, "A <title>", "What \"it\" shows");
  d.label({10.0, 50.0}, "taken", "");
  CHECK_FALSE(d.label_if_free({20.0, 52.0}, "over it", "", Align::start));
  CHECK_FALSE(d.label_if_free({198.0, 90.0}, "outside", "", Align::start));
  CHECK(d.label_if_free({10.0, 80.0}, "free", "", Align::start));
  d.keep_clear({150.0, 20.0}, 8.0, 8.0);
  CHECK_FALSE(d.label_if_free({150.0, 22.0}, "on a mark", "", Align::middle));
  const std::string text = d.text();
  CHECK(text.find("over it") == std::string::npos);
  CHECK(text.find("A &lt;title&gt;") != std::string::npos);
  CHECK(text.find("aria-labelledby=\"test-title test-desc\"") != std::string::npos);
}
