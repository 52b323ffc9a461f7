#include "loftwright/ground/run.hpp"

#include "ground/bounce.hpp"

namespace loftwright {

void validate(const Turf& turf) { check_numbers(kTurfNumbers, turf); }

template <class T>
RunOf<T> run_out(const LandingOf<T>& landing, const RunSettingOf<T>& setting) {
  return detail::run_on(landing, setting, *setting.aero);
}

template RunOf<double> run_out(const LandingOf<double>&, const RunSettingOf<double>&);
template RunOf<Dual<2>> run_out(const LandingOf<Dual<2>>&, const RunSettingOf<Dual<2>>&);
template RunOf<Dual<5>> run_out(const LandingOf<Dual<5>>&, const RunSettingOf<Dual<5>>&);
template RunOf<Dual<8>> run_out(const LandingOf<Dual<8>>&, const RunSettingOf<Dual<8>>&);

}  // namespace loftwright
