#include "loftwright/shot/shares.hpp"

#include <vector>

#include "stats/shapley.hpp"

namespace loftwright {

namespace {

// From what the drives of all sets of changes that can come about do.
template <class F, class Drives>
EnumArray<F, Share> shares_of(const Drives& after_changes, std::initializer_list<Precedence> precedence) {
  constexpr auto kFactors = kCountOf<F>;
  std::vector<Share> drives(1u << kFactors);
  const auto carry = shapley_shares(
      kFactors,
      [&](unsigned changed) {
        drives[changed] = after_changes(changed);
        return drives[changed].carry;
      },
      precedence);
  const auto total = shapley_shares(
      kFactors, [&](unsigned changed) { return drives[changed].total; }, precedence);
  EnumArray<F, Share> shares;
  for (const F f : kAllOf<F>) shares[f] = {carry[index_of(f)], total[index_of(f)]};
  return shares;
}

template <class F>
bool has(unsigned changed, F factor) {
  return changed >> static_cast<unsigned>(factor) & 1;
}

}  // namespace

std::string_view key_of(Factor factor) {
  constexpr EnumArray<Factor, std::string_view> keys{"speed", "swing", "club", "hands", "strike", "face", "conditions"};
  return keys[factor];
}

std::string_view title_of(Factor factor, bool club_known) {
  constexpr EnumArray<Factor, std::string_view> titles{"club speed",   "swing",      "club",      "hands",
                                                       "strike point", "face angle", "conditions"};
  return factor == Factor::hands && !club_known ? "hands or club" : titles[factor];
}

std::string_view key_of(HeldFactor factor) {
  constexpr EnumArray<HeldFactor, std::string_view> keys{"club_speed", "attack",    "loft",
                                                         "strike",     "direction", "conditions"};
  return keys[factor];
}

Shares SharesOfChange::by_who(double follow) {
  const Delivery &a = before_.delivery, &b = after_.delivery;
  const double followed = follow * (b.attack - a.attack),
               club = club_known() ? *after_.club_loft - *before_.club_loft : 0.0,
               opened = before_.club_face && after_.club_face ? *after_.club_face - *before_.club_face : 0.0,
               turn = handed_ == Handed::left ? -opened : opened;
  const auto after_changes = [&](unsigned changed) {
    const auto from = [&](Factor f) -> const Delivery& { return has(changed, f) ? b : a; };
    Delivery d{.club_speed = from(Factor::speed).club_speed,
               .attack = from(Factor::swing).attack,
               .path = from(Factor::swing).path,
               .face = has(changed, Factor::face) ? b.face - (has(changed, Factor::club) ? 0.0 : turn)
                                                  : a.face + (has(changed, Factor::club) ? turn : 0.0),
               .dynamic_loft = 0.0,
               .toe = from(Factor::strike).toe,
               .high = from(Factor::strike).high};
    // Hands come after the swing: from then on it is the loft of after, but for the club's part while that is to come.
    if (has(changed, Factor::hands)) {
      d.dynamic_loft = b.dynamic_loft - (has(changed, Factor::club) ? 0.0 : club);
    } else {
      d.dynamic_loft =
          a.dynamic_loft + (has(changed, Factor::swing) ? followed : 0.0) + (has(changed, Factor::club) ? club : 0.0);
    }
    return drive(d, has(changed, Factor::conditions));
  };
  return shares_of<Factor>(after_changes, {{static_cast<int>(Factor::swing), static_cast<int>(Factor::hands)}});
}

HeldShares SharesOfChange::loft_held() {
  const auto after_changes = [&](unsigned changed) {
    const auto from = [&](HeldFactor f) -> const Delivery& {
      return has(changed, f) ? after_.delivery : before_.delivery;
    };
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
  return shares_of<HeldFactor>(after_changes, {});
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
