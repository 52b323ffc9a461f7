#include "loftwright/shot/shares.hpp"

#include <stdexcept>
#include <vector>

#include "loftwright/shot/drives.hpp"
#include "stats/shapley.hpp"

namespace loftwright {

namespace {

const Shapley& shapley_by_who() {
  static const Shapley shapley(kCountOf<Factor>, {{static_cast<int>(Factor::swing), static_cast<int>(Factor::hands)}});
  return shapley;
}

const Shapley& shapley_held() {
  static const Shapley shapley(kCountOf<HeldFactor>);
  return shapley;
}

// From what the drives of all coalitions of changes do.
template <class F, class Drives>
EnumArray<F, Share> shares_of(const Shapley& shapley, const Drives& after_changes) {
  std::array<double, 1u << kCountOf<F>> carry{}, total{};
  for (const unsigned changed : shapley.coalitions()) {
    const Share drive = after_changes(changed);
    carry[changed] = drive.carry;
    total[changed] = drive.total;
  }
  const std::vector<double> of_carry = shapley.shares(carry), of_total = shapley.shares(total);
  EnumArray<F, Share> shares;
  for (const F f : kAllOf<F>) shares[f] = {of_carry[index_of(f)], of_total[index_of(f)]};
  return shares;
}

std::array<double, 7> numbers_of(const Delivery& d) {
  return {d.club_speed, d.attack, d.path, d.face, d.dynamic_loft, d.toe, d.high};
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
  return shares_of<Factor>(shapley_by_who(), [&](unsigned changed) {
    return drive(delivery_by_who(changed, follow), has(changed, Factor::conditions));
  });
}

HeldShares SharesOfChange::loft_held() {
  return shares_of<HeldFactor>(shapley_held(), [&](unsigned changed) {
    return drive(delivery_held(changed), has(changed, HeldFactor::conditions));
  });
}

Delivery SharesOfChange::delivery_by_who(unsigned changed, double follow) const {
  const Delivery &a = a_, &b = b_;
  const double followed = follow * (b.attack - a.attack),
               club = club_known() ? *after_->club_loft - *before_->club_loft : 0.0,
               opened = before_->club_face && after_->club_face ? *after_->club_face - *before_->club_face : 0.0,
               turn = handed_ == Handed::left ? -opened : opened;
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
  return d;
}

Delivery SharesOfChange::delivery_held(unsigned changed) const {
  const auto from = [&](HeldFactor f) -> const Delivery& { return has(changed, f) ? b_ : a_; };
  const Delivery &strike = from(HeldFactor::strike), &aim = from(HeldFactor::direction);
  return {.club_speed = from(HeldFactor::club_speed).club_speed,
          .attack = from(HeldFactor::attack).attack,
          .path = aim.path,
          .face = aim.face,
          .dynamic_loft = from(HeldFactor::loft).dynamic_loft,
          .toe = strike.toe,
          .high = strike.high};
}

Share SharesOfChange::drive(const Delivery& d, bool after_conditions) {
  const auto [at, is_new] = flown_.try_emplace({numbers_of(d), after_conditions});
  if (is_new) {
    const Drive drive = drive_from(d, handed_, after_conditions ? after_->setting : before_->setting, tolerance_);
    at->second = {drive.flight.carry, drive.total};
  }
  return at->second;
}

void SharesOfChange::fly_together(std::span<SharesOfChange> changes, double follow) {
  if (changes.empty()) return;
  const SharesOfChange& first = changes.front();
  for (const SharesOfChange& change : changes) {  // before anything is noted of any
    if (change.before_ != first.before_ || change.after_ != first.after_ || change.tolerance_ != first.tolerance_)
      throw std::invalid_argument("changes flown together differ in more than their deliveries");
  }
  std::array<std::vector<DriveInput>, 2> inputs;  // before's conditions, after's
  std::array<std::vector<Share*>, 2> shares;
  for (SharesOfChange& change : changes) {
    const auto ask = [&](const Delivery& d, bool after_conditions) {
      const auto [at, is_new] = change.flown_.try_emplace({numbers_of(d), after_conditions});
      if (!is_new) return;
      inputs[after_conditions].push_back({d});
      shares[after_conditions].push_back(&at->second);
    };
    for (const unsigned c : shapley_by_who().coalitions())
      ask(change.delivery_by_who(c, follow), has(c, Factor::conditions));
    for (const unsigned c : shapley_held().coalitions()) ask(change.delivery_held(c), has(c, HeldFactor::conditions));
  }
  for (const bool after : {false, true}) {
    if (inputs[after].empty()) continue;
    const std::vector<Drive> drives = drive_many(
        inputs[after], first.handed_, after ? first.after_->setting : first.before_->setting, first.tolerance_);
    for (std::size_t i = 0; i < drives.size(); ++i) *shares[after][i] = {drives[i].flight.carry, drives[i].total};
  }
}

}  // namespace loftwright
