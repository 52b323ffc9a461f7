#include "loftwright/aero/aero.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/error.hpp"

namespace loftwright {

namespace {

void check_axis(std::string_view name, const std::vector<double>& axis, const Range& range) {
  if (axis.size() < 2)
    throw InputError(fmt::format("aero table: {} needs at least 2 values, has {}", name, axis.size()));
  for (std::size_t i = 0; i < axis.size(); ++i) {
    check(fmt::format("aero table: {}[{}]", name, i), axis[i], range);
    if (i > 0 && axis[i] <= axis[i - 1]) {
      throw InputError(fmt::format("aero table: {}[{}] = {:.6g} does not rise above {:.6g} before it", name, i, axis[i],
                                   axis[i - 1]));
    }
  }
}

void check_form(const AeroTable& table) {
  check_axis("reynolds", table.reynolds, kReynolds);
  check_axis("spin_ratio", table.spin_ratio, kSpinRatios);
  const std::size_t cells = table.reynolds.size() * table.spin_ratio.size();
  if (table.drag.size() != cells || table.lift.size() != cells) {
    throw InputError(fmt::format("aero table: drag has {} and lift {} values; {} x {} = {} needed", table.drag.size(),
                                 table.lift.size(), table.reynolds.size(), table.spin_ratio.size(), cells));
  }
  for (std::size_t i = 0; i < cells; ++i) {
    check(fmt::format("aero table: drag[{}]", i), table.drag[i], kTableDrag);
    check(fmt::format("aero table: lift[{}]", i), table.lift[i], kTableLift);
  }
}

void check_form(const AeroCurve& curve) {
  check_numbers(kCurveNumbers, curve);
  check("aero lift exponent", curve.lift_exponent.exponent(), kLiftExponent);
  if (curve.crisis) check_numbers(kCrisisNumbers, *curve.crisis);
}

}  // namespace

void validate(const AeroModel& model) {
  check("aero reynolds range, low", model.reynolds_low, kReynolds);
  check_range("aero reynolds range, high", model.reynolds_high, model.reynolds_low, kReynolds.high, "");
  check("aero spin ratio range, low", model.spin_ratio_low, kSpinRatios);
  check_range("aero spin ratio range, high", model.spin_ratio_high, model.spin_ratio_low, kSpinRatios.high, "");
  std::visit([](const auto& form) { check_form(form); }, model.form);
  constexpr int kProbes = 20;
  for (int i = 0; i <= kProbes; ++i) {
    for (int j = 0; j <= kProbes; ++j) {
      const double re = model.reynolds_low + (model.reynolds_high - model.reynolds_low) * i / kProbes;
      const double s = std::min(kGreatestSpinRatio,
                                model.spin_ratio_low + (model.spin_ratio_high - model.spin_ratio_low) * j / kProbes);
      const auto c = std::visit([&](const auto& form) { return form.at(re, s); }, model.form);
      check_range(fmt::format("aero drag at Re {:.3g}, S {:.3g}", re, s), c.drag, 1e-3, 5.0, "");
      check_range(fmt::format("aero lift at Re {:.3g}, S {:.3g}", re, s), c.lift, -5.0, 5.0, "");
    }
  }
}

}  // namespace loftwright
