#include "loftwright/ground/run.hpp"

#include "ground/bounce.hpp"
#include "loftwright/core/error.hpp"

namespace loftwright {

void validate(const Turf& turf) {
  check_range("turf tilt", turf.tilt / kDegree, 0.0, 40.0, "deg");
  check_range("turf restitution", turf.restitution, 0.05, 0.95, "");
  check_range("turf rolling resistance", turf.rolling, 0.02, 1.0, "");
  check_range("turf grass drag", turf.grass, 0.0005, 0.2, "1/m");
  check_range("turf tilt speed", turf.tilt_speed, 0.5, 10.0, "m/s");
  check_range("turf rise", turf.rise, 0.3, 1.2, "");
  check_range("turf friction", turf.friction, 0.05, 1.0, "");
  check_range("turf width", turf.width, 0.0, 3.0, "");
}

template <class T>
RunOf<T> run_out(const LandingOf<T>& landing, const RunSettingOf<T>& setting) {
  return detail::run_on(landing, setting, *setting.aero);
}

template RunOf<double> run_out(const LandingOf<double>&, const RunSettingOf<double>&);
template RunOf<Dual<2>> run_out(const LandingOf<Dual<2>>&, const RunSettingOf<Dual<2>>&);
template RunOf<Dual<5>> run_out(const LandingOf<Dual<5>>&, const RunSettingOf<Dual<5>>&);
template RunOf<Dual<8>> run_out(const LandingOf<Dual<8>>&, const RunSettingOf<Dual<8>>&);

}  // namespace loftwright
