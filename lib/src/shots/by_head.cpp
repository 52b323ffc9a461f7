#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "loftwright/shots/heads.hpp"
#include "shots/odd_shots.hpp"

namespace loftwright {

namespace {

// The clubs of a list as first written, in the order in which they first come; "" where a shot names none.
std::vector<std::string> clubs_of(const ShotList& list) {
  std::vector<std::string> out;
  for (const Shot& shot : list.shots) {
    const auto same = [&](const std::string& club) { return fold(club) == fold(shot.club); };
    if (std::none_of(out.begin(), out.end(), same)) out.push_back(shot.club);
  }
  return out;
}

ShotList shots_of(const ShotList& list, const std::string& club) {
  ShotList out = list;
  out.shots.clear();
  for (const Shot& shot : list.shots) {
    if (fold(shot.club) == fold(club)) out.shots.push_back(shot);
  }
  mark_odd(out.shots);
  return out;
}

// Two lists of one name, from different folders, stay apart.
void keep_apart(std::vector<HeadShots>& heads) {
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::size_t number = 1;
    for (std::size_t j = i + 1; j < heads.size(); ++j) {
      if (fold(heads[j].name) == fold(heads[i].name)) heads[j].name += fmt::format(" ({})", ++number);
    }
  }
}

std::string names_of(const std::vector<HeadShots>& heads) {
  std::string out;
  for (const HeadShots& head : heads) out += fmt::format("{}'{}'", out.empty() ? "" : ", ", head.name);
  return out;
}

[[noreturn]] void refuse_one(const std::vector<HeadShots>& heads, const std::vector<NamedList>& lists) {
  const std::string what = heads.empty() ? "no head" : fmt::format("one head, {},", names_of(heads));
  const bool named = std::any_of(lists.begin(), lists.end(), [](const NamedList& one) {
    return std::any_of(one.list.shots.begin(), one.list.shots.end(), [](const Shot& s) { return !s.club.empty(); });
  });
  throw InputError(fmt::format("{} to compare: two or more are needed. {}", what,
                               named ? "The column that names the club names no other; or give a list for each head"
                                     : "No column names the club: add one, \"Club\", or give a list for each head"));
}

}  // namespace

std::vector<HeadShots> by_head(const std::vector<NamedList>& lists, const std::vector<std::string>& without,
                               std::vector<Note>& notes) {
  std::vector<HeadShots> out;
  std::vector<bool> found(without.size(), false);
  for (std::size_t run = 0; run < lists.size(); ++run) {
    const std::string& name = lists[run].name;
    const ShotList& list = lists[run].list;
    std::vector<std::string> clubs = clubs_of(list);
    const auto is_without = [&](const std::string& club) {
      bool any = false;
      for (std::size_t i = 0; i < without.size(); ++i) {
        if (fold(without[i]) != fold(club) && (lists.size() == 1 || fold(without[i]) != fold(name))) continue;
        found[i] = any = true;
      }
      return any;
    };
    clubs.erase(std::remove_if(clubs.begin(), clubs.end(), is_without), clubs.end());
    const auto nameless = std::find(clubs.begin(), clubs.end(), "");
    if (clubs.size() > 1 && nameless != clubs.end()) {
      const std::size_t shots = shots_of(list, "").shots.size();
      notes.push_back({0, fmt::format("{}: {} without a club {} passed over", name, how_many(shots, "shot"),
                                      shots == 1 ? "is" : "are")});
      clubs.erase(nameless);
    }
    for (const std::string& club : clubs) {
      const bool by_club = lists.size() == 1 && !club.empty();
      std::string head = by_club ? club : clubs.size() == 1 ? name : fmt::format("{}: {}", name, club);
      out.push_back({std::move(head), run, shots_of(list, club)});
    }
  }
  for (std::size_t i = 0; i < without.size(); ++i) {
    if (!found[i]) throw InputError(fmt::format("no shots of '{}' to leave out; heads: {}", without[i], names_of(out)));
  }
  if (out.size() < 2) refuse_one(out, lists);
  keep_apart(out);
  return out;
}

}  // namespace loftwright
