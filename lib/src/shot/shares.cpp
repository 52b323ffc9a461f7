#include "loftwright/shot/shares.hpp"

#include <vector>

#include "stats/shapley.hpp"

namespace loftwright {

namespace {

// From what the drives of all sets of changes that can come about do.
template <std::size_t N, class Drives>
std::array<Share, N> shares_of(const Drives& after_changes, std::initializer_list<Precedence> precedence) {
  std::vector<Share> drives(1u << N);
  const auto carry = shapley_shares(
      N,
      [&](unsigned changed) {
        drives[changed] = after_changes(changed);
        return drives[changed].carry;
      },
      precedence);
  const auto total = shapley_shares(N, [&](unsigned changed) { return drives[changed].total; }, precedence);
  std::array<Share, N> shares;
  for (std::size_t i = 0; i < N; ++i) shares[i] = {carry[i], total[i]};
  return shares;
}

template <class F>
bool has(unsigned changed, F factor) {
  return changed >> static_cast<unsigned>(factor) & 1;
}

}  // namespace

std::string_view key_of(Factor factor) {
  constexpr std::string_view keys[kFactors] = {"speed", "swing", "club", "hands", "strike", "face", "conditions"};
  return keys[static_cast<std::size_t>(factor)];
}

std::string_view title_of(Factor factor, bool club_known) {
  constexpr std::string_view titles[kFactors] = {"club speed", "swing", "club", "hands", "strike point", "face angle", "conditions"};
  return factor == Factor::hands && !club_known ? "hands or club" : titles[static_cast<std::size_t>(factor)];
}

std::string_view key_of(HeldFactor factor) {
  constexpr std::string_view keys[kHeldFactors] = {"club_speed", "attack", "loft", "strike", "direction", "conditions"};
  return keys[static_cast<std::size_t>(factor)];
}

Shares SharesOfChange::by_who(double follow) {
  const Delivery &a = before_.delivery, &b = after_.delivery;
  const double followed = follow * (b.attack - a.attack), club = club_known() ? *after_.club_loft - *before_.club_loft : 0.0;
  const auto after_changes = [&](unsigned changed) {
    const auto from = [&](Factor f) -> const Delivery& { return has(changed, f) ? b : a; };
    Delivery d{.club_speed = from(Factor::speed).club_speed,
               .attack = from(Factor::swing).attack,
               .path = from(Factor::swing).path,
               .face = from(Factor::face).face,
               .dynamic_loft = 0.0,
               .toe = from(Factor::strike).toe,
               .high = from(Factor::strike).high};
    // Hands come after the swing: from then on it is the loft of after, but for the club's part while that is to come.
    if (has(changed, Factor::hands)) {
      d.dynamic_loft = b.dynamic_loft - (has(changed, Factor::club) ? 0.0 : club);
    } else {
      d.dynamic_loft = a.dynamic_loft + (has(changed, Factor::swing) ? followed : 0.0) + (has(changed, Factor::club) ? club : 0.0);
    }
    return drive(d, has(changed, Factor::conditions));
  };
  return shares_of<kFactors>(after_changes, {{static_cast<int>(Factor::swing), static_cast<int>(Factor::hands)}});
}

HeldShares SharesOfChange::loft_held() {
  const auto after_changes = [&](unsigned changed) {
    const auto from = [&](HeldFactor f) -> const Delivery& { return has(changed, f) ? after_.delivery : before_.delivery; };
    const Delivery &strike = from(HeldFactor::strike), &aim = from(HeldFactor::direction);
    return drive({.club_speed = from(HeldFactor::club_speed).club_speed,
                  .attack = from(HeldFactor::attack).attack,
                  .path = aim.path,
                  .face = aim.face,
                  .dynamic_loft = from(HeldFactor::loft).dynamic_loft,
                  .toe = strike.toe,
                  .high = strike.high},
                 has(changed, HeldFactor::conditions));
  };
  return shares_of<kHeldFactors>(after_changes, {});
}

Share SharesOfChange::drive(const Delivery& d, bool after_conditions) {
  const auto [at, is_new] =
      flown_.try_emplace({{d.club_speed, d.attack, d.path, d.face, d.dynamic_loft, d.toe, d.high}, after_conditions});
  if (is_new) {
    const Drive drive = drive_from(d, handed_, after_conditions ? after_.setting : before_.setting, tolerance_);
    at->second = {drive.flight.carry, drive.total};
  }
  return at->second;
}

}  // namespace loftwright
