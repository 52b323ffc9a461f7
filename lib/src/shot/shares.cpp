#include "loftwright/shot/shares.hpp"

#include "loftwright/stats/shapley.hpp"

namespace loftwright {

std::string_view key_of(Factor factor) {
  constexpr std::string_view keys[kFactors] = {"club_speed", "attack", "loft", "strike", "direction", "conditions"};
  return keys[static_cast<std::size_t>(factor)];
}

std::string_view title_of(Factor factor) {
  constexpr std::string_view titles[kFactors] = {"club speed", "attack", "delivered loft", "strike point", "direction", "conditions"};
  return titles[static_cast<std::size_t>(factor)];
}

std::array<FactorShare, kFactors> shares_of_change(const DriveCase& before, const DriveCase& after, Handed handed,
                                                   double tolerance) {
  std::vector<Drive> drives;
  for (unsigned changed = 0; changed < 1u << kFactors; ++changed) {
    const auto from = [&](Factor f) -> const DriveCase& { return changed >> static_cast<unsigned>(f) & 1 ? after : before; };
    const Delivery& strike = from(Factor::strike).delivery;
    const Delivery& aim = from(Factor::direction).delivery;
    const Delivery d{.club_speed = from(Factor::club_speed).delivery.club_speed,
                     .attack = from(Factor::attack).delivery.attack,
                     .path = aim.path,
                     .face = aim.face,
                     .dynamic_loft = from(Factor::loft).delivery.dynamic_loft,
                     .toe = strike.toe,
                     .high = strike.high};
    drives.push_back(drive_from(d, handed, from(Factor::conditions).setting, tolerance));
  }
  const auto carry = shapley_shares(kFactors, [&](unsigned changed) { return drives[changed].flight.carry; });
  const auto total = shapley_shares(kFactors, [&](unsigned changed) { return drives[changed].total; });
  std::array<FactorShare, kFactors> shares;
  for (std::size_t i = 0; i < kFactors; ++i) shares[i] = {static_cast<Factor>(i), carry[i], total[i]};
  return shares;
}

}  // namespace loftwright
