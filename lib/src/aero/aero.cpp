#include "loftwright/aero/aero.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/error.hpp"

namespace loftwright {

namespace {

void check_axis(std::string_view name, const std::vector<double>& axis) {
  if (axis.size() < 2)
    throw InputError(fmt::format("aero table: {} needs at least 2 values, has {}", name, axis.size()));
  for (std::size_t i = 0; i < axis.size(); ++i) {
    check_range(fmt::format("aero table: {}[{}]", name, i), axis[i], 0.0, 1e7, "");
    if (i > 0 && axis[i] <= axis[i - 1]) {
      throw InputError(fmt::format("aero table: {}[{}] = {:.6g} does not rise above {:.6g} before it", name, i, axis[i],
                                   axis[i - 1]));
    }
  }
}

void check_form(const AeroTable& table) {
  check_axis("reynolds", table.reynolds);
  check_axis("spin_ratio", table.spin_ratio);
  const std::size_t cells = table.reynolds.size() * table.spin_ratio.size();
  if (table.drag.size() != cells || table.lift.size() != cells) {
    throw InputError(fmt::format("aero table: drag has {} and lift {} values; {} x {} = {} needed", table.drag.size(),
                                 table.lift.size(), table.reynolds.size(), table.spin_ratio.size(), cells));
  }
  for (std::size_t i = 0; i < cells; ++i) {
    check_range(fmt::format("aero table: drag[{}]", i), table.drag[i], 1e-3, 2.0, "");
    check_range(fmt::format("aero table: lift[{}]", i), table.lift[i], -1.0, 2.0, "");
  }
}

void check_form(const AeroCurve& curve) {
  for (const double c : {curve.drag, curve.drag_spin, curve.drag_reynolds, curve.drag_wave, curve.lift, curve.lift_spin,
                         curve.lift_power}) {
    check_range("aero coefficient", c, -10.0, 10.0, "");
  }
  check_range("aero lift exponent", curve.lift_exponent.exponent(), 0.05, 4.0, "");
  if (!curve.crisis) return;
  check_range("aero crisis: reynolds", curve.crisis->reynolds, 0.0, 1e7, "");
  check_range("aero crisis: width", curve.crisis->width, 100.0, 1e6, "");
  check_range("aero crisis: drag", curve.crisis->drag, -10.0, 10.0, "");
  check_range("aero crisis: lift_loss", curve.crisis->lift_loss, -10.0, 10.0, "");
}

}  // namespace

void validate(const AeroModel& model) {
  check_range("aero reynolds range, low", model.reynolds_low, 0.0, 1e7, "");
  check_range("aero reynolds range, high", model.reynolds_high, model.reynolds_low, 1e7, "");
  check_range("aero spin ratio range, low", model.spin_ratio_low, 0.0, 10.0, "");
  check_range("aero spin ratio range, high", model.spin_ratio_high, model.spin_ratio_low, 10.0, "");
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
