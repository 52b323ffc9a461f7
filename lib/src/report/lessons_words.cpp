#include "report/lessons_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/text.hpp"
#include "loftwright/report/words.hpp"

namespace loftwright {

namespace {

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

// "(8 in 10: 0.66 to 0.78)"
template <class Words>
std::string interval_of(const Pooled& p, const Words& words) {
  return fmt::format("(8 in 10: {} to {})", words(p.low), words(p.high));
}

std::string ratio(double value) { return number(Shown::factor, value, UnitSystem::yards); }

std::string speed_number(double per_radian, UnitSystem units) {
  return number(Shown::speed_cost, per_radian * kDegree, units, Sign::always);
}

// How much of the uncertainty of the mean the pupils took away: nothing where it stands as it was.
double learnt(const Pooled& p, double prior_sd) {
  return std::clamp(1.0 - p.sd * p.sd / (prior_sd * prior_sd), 0.0, 1.0);
}

// What is pooled with nobody: the literature.
const Academy& literature() {
  static const Academy none = lessons({}, {}).academy;
  return none;
}

}  // namespace

std::string calibration_sentence(const Academy& academy, UnitSystem units) {
  const auto& all = academy.calibration;
  if (all.empty()) return "";
  const auto count = [&](auto test) { return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), test)); };
  const std::size_t within =
      count([](const Reckoning& r) { return r.reached >= r.predicted_low && r.reached <= r.predicted_high; });
  const std::size_t below = count([](const Reckoning& r) { return r.reached < r.predicted_low; });
  const std::size_t above = all.size() - within - below;
  double promised = 0.0, reached = 0.0;
  for (const Reckoning& r : all) {
    promised += r.predicted / static_cast<double>(all.size());
    reached += r.reached / static_cast<double>(all.size());
  }
  const std::string verdict =
      !academy.reached_share ? fmt::format("none of them was of a swing, and of {} or more, which alone count",
                                           quantity(Shown::gain, kLeastPromise, units))
      : academy.reached_share->high < 1.0 ? "past predictions promised too much"
      : academy.reached_share->low > 1.0
          ? "past predictions promised too little"
          : "that past predictions promised too much or too little cannot be told from chance yet";
  return fmt::format(
      "Of {} with an outcome {} ended within the interval given (8 in 10 should), {} below it{}; on average {} was "
      "promised and {} reached: {}.",
      how_many(all.size(), "promise"), within, below, above > 0 ? fmt::format(" and {} above", above) : "",
      quantity(Shown::gain, promised, units, Sign::always), quantity(Shown::gain, reached, units, Sign::always),
      verdict);
}

std::string lessons_sentence(const Lessons& lessons, UnitSystem units) {
  const Academy& a = lessons.academy;
  const auto reached_by = [&](std::string_view who) {
    if (!a.reached_share)
      return std::string(a.calibration.empty() ? " No promise that was kept in a book has an outcome yet." : "");
    return fmt::format(" Of what a change of swing was promised to gain {} reached {} {}.", who,
                       percent(a.reached_share->mean), interval_of(*a.reached_share, percent));
  };
  if (a.follow.groups == 0) {
    return "No pupil has two sessions with the same driver and a measured swing yet: what is known of follow and speed "
           "cost is the literature's." +
           (a.reached_share ? reached_by("your pupils") : "");
  }
  const Pooled& speed = a.speed_per_attack;
  const std::string_view unit = unit_shown(Shown::speed_cost, units);
  std::string out = fmt::format(
      "With every degree that the attack rises, your {} {} deg more loft {}, and club speed changes by {} {} {}.",
      a.follow.groups == 1 ? "pupil delivers" : fmt::format("{} pupils deliver", a.follow.groups), ratio(a.follow.mean),
      interval_of(a.follow, ratio), speed_number(speed.mean, units), unit,
      interval_of(speed, [&](double v) { return speed_number(v, units); }));
  if (learnt(a.follow, literature().follow.sd) < 0.5)
    out += " Most of what is known of follow is still the literature's.";
  return out + reached_by("they");
}

std::vector<std::string> lessons_notes(const Lessons& lessons) {
  const Academy& a = lessons.academy;
  const Academy& before = literature();
  std::vector<std::string> out;
  if (a.follow.groups > 0) {
    out.push_back(fmt::format(
        "How much of this the pupils say: they took away {} of the uncertainty (variance) that the literature leaves "
        "about the mean of follow, and {} of that about the speed cost; the rest is still the literature's.",
        percent(learnt(a.follow, before.follow.sd)), percent(learnt(a.speed_per_attack, before.speed_per_attack.sd))));
  }
  out.emplace_back(
      "Follow and speed cost are of the way loft and speed went with attack from session to session, whatever was "
      "worked on: a pupil who also grew stronger, or was asked to hold the loft, shows that here.");
  if (std::any_of(lessons.pupils.begin(), lessons.pupils.end(), [](const PupilLessons& p) { return p.inferred > 0; })) {
    out.emplace_back(
        "Sessions whose delivery was worked back from ball numbers are left out of follow and speed cost.");
  }
  if (a.reached_share || !a.calibration.empty()) {
    out.emplace_back(
        "Promised and reached are both the model's for the deliveries, under the conditions that all sessions of a "
        "book "
        "are compared in: neither the weather nor a measured carry is in them.");
  } else {
    out.emplace_back(
        "To reckon what was reached, keep the advice with the session it was given on: book add --advice.");
  }
  return out;
}

namespace {

// Books that hold a session with the very same numbers on the same day: a copy, which counts as another pupil.
std::vector<std::string> twin_sentences(const AcademyFolder& folder) {
  std::map<std::string, std::string> first;  // file by session
  std::vector<std::string> out;
  for (const NamedBook& named : folder.books) {
    std::string twin;
    for (const BookedSession& s : named.book.sessions) {
      const Delivery& d = s.delivery;
      const auto [at, is_new] = first.emplace(
          fmt::format("{} {:.10g} {:.10g} {:.10g}", text_of(s.date), d.club_speed, d.attack, d.dynamic_loft),
          named.file);
      if (!is_new && at->second != named.file) twin = at->second;
    }
    if (!twin.empty())
      out.push_back(
          fmt::format("{} and {} hold the same session and count as two pupils: is one a copy of the other? "
                      "Take it out of the folder",
                      twin, named.file));
  }
  return out;
}

}  // namespace

TextTable academy_table(const Academy& a, UnitSystem units) {
  TextTable table{"What your lessons do", {}, 2, {}, true};
  const Academy& before = literature();
  table.rows = {{"", "", "your", "", "between", "without"},
                {"", "pupils", "pupils", "8 in 10", "pupils", "your books"}};
  const auto row = [&](std::string title, const Pooled& p, const std::optional<Pooled>& usual, const auto& words,
                       const auto& width) {
    table.rows.push_back({std::move(title), std::to_string(p.groups), words(p.mean),
                          fmt::format("{} to {}", words(p.low), words(p.high)), width(p.between_sd),
                          usual ? fmt::format("{} +- {}", words(usual->mean), width(usual->new_group_sd())) : "-"});
  };
  row("follow [deg a deg]", a.follow, before.follow, ratio, ratio);
  row(
      fmt::format("club speed [{} a deg]", unit_shown(Shown::speed_cost, units)), a.speed_per_attack,
      before.speed_per_attack, [&](double v) { return speed_number(v, units); },
      [&](double v) { return number(Shown::speed_cost, v * kDegree, units); });
  if (a.reached_share) row("reached of the promised", *a.reached_share, std::nullopt, percent, percent);
  table.notes.emplace_back(
      "8 in 10: where the mean of the pupils lies. Between pupils: how one differs from the next (1 sd).");
  return table;
}

TextTable pupils_table(const Lessons& lessons) {
  TextTable table{"The books", {}, 2, {}};
  if (lessons.pupils.empty()) return table;
  table.rows = {{"", "", "with one", "attack", "", "with an"},
                {"book", "sessions", "before", "moved", "promises", "outcome"}};
  constexpr std::size_t kMost = 60;  // rows
  for (const PupilLessons& p : lessons.pupils) {
    if (table.rows.size() - table.heads == kMost) break;
    table.rows.push_back({p.file, std::to_string(p.sessions), std::to_string(p.pairs),
                          p.pairs > 0 ? quantity(Shown::angle, p.attack_moved, UnitSystem::yards, Sign::always) : "-",
                          std::to_string(p.promises), std::to_string(p.outcomes)});
  }
  if (lessons.pupils.size() > kMost)
    table.notes.push_back(fmt::format("And {} more books, which count as well.", lessons.pupils.size() - kMost));
  table.notes.emplace_back(
      "With one before: sessions that have another before them with the same driver, both with a measured swing.");
  return table;
}

TextTable calibration_table(const Academy& academy, UnitSystem units) {
  TextTable table{"What was promised, and what was reached", {}, 1, {}};
  if (academy.calibration.empty()) return table;
  table.rows = {{"pupil", "what", "promised", "8 in 10", "reached"}};
  constexpr std::size_t kMost = 60;  // rows
  for (const Reckoning& r : academy.calibration) {
    if (table.rows.size() - table.heads == kMost) break;
    const auto gain = [&](double metres) { return number(Shown::gain, metres, units, Sign::always); };
    table.rows.push_back({r.pupil, std::string(key_of(r.lever)), gain(r.predicted),
                          fmt::format("{} to {}", gain(r.predicted_low), gain(r.predicted_high)), gain(r.reached)});
  }
  table.notes.push_back(fmt::format("In {}, each under the conditions that all sessions are compared in.",
                                    unit_shown(Shown::gain, units)));
  if (academy.calibration.size() > kMost)
    table.notes.push_back(
        fmt::format("And {} more promises, which count as well.", academy.calibration.size() - kMost));
  return table;
}

std::vector<std::string> left_out_sentences(const AcademyFolder& folder) {
  std::vector<std::string> out = twin_sentences(folder);
  if (!folder.left_out.empty())
    out.push_back(fmt::format("left out, for {} no {}: {}", folder.left_out.size() == 1 ? "it is" : "they are",
                              plural(folder.left_out.size(), "book"), listed(folder.left_out)));
  return out;
}

}  // namespace loftwright
