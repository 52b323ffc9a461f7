#include "report/clinic_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "core/text.hpp"
#include "loftwright/report/advice_words.hpp"
#include "loftwright/report/words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

constexpr EnumArray<Lever, std::string_view> kShortLever{"technique", "loft", "either", "both", "nothing"};
constexpr EnumArray<Measure, std::string_view> kShortMeasure{"shots", "ball", "lesson", "run"};
constexpr EnumArray<Measure, std::string_view> kMeasureWords{"ten more shots", "a ball and head tuned to the shots",
                                                             "a trial lesson", "the run on this turf"};

template <class Do>
void each_row(const ClinicAnswer& answer, const Do& act) {
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (answer.results[i].row) act(*answer.results[i].row, answer.folder.files[i]);
  }
}

std::string limits_words(const ClinicRow& row, UnitSystem units) {
  std::vector<std::string> out;
  for (const LimitState& limit : row.must_give) out.push_back(limit_words(limit.quantity, limit.allowed, units));
  return listed(out);
}

// "both loft and technique for 6, the loft alone for 3 and neither for 1"
std::string levers_words(const ClinicAnswer& answer) {
  constexpr std::array kOrder{std::pair{Lever::both, "both loft and technique"},
                              std::pair{Lever::technique, "the technique alone"},
                              std::pair{Lever::loft, "the loft alone"}, std::pair{Lever::either, "either of the two"},
                              std::pair{Lever::leave, "neither"}};
  std::vector<std::string> parts;
  for (const auto& [lever, words] : kOrder) {
    std::size_t count = 0;
    each_row(answer, [&, lever = lever](const ClinicRow& row, const std::string&) {
      count += row.feasible && row.lever == lever;
    });
    if (count > 0) parts.push_back(fmt::format("{} for {}", words, in_words(count)));
  }
  return listed(parts);
}

std::string gain_sentence(const ClinicAnswer& answer, UnitSystem units) {
  double sum = 0.0, most = 0.0;
  std::size_t count = 0, rows = 0;
  std::string best;
  bool carry = false, total = false;
  each_row(answer, [&](const ClinicRow& row, const std::string& file) {
    ++rows;
    if (!row.feasible) return;
    ++count;
    sum += row.gain;
    (row.goal == Goal::carry ? carry : total) = true;
    if (best.empty() || row.gain > most) most = row.gain, best = who(row.name, file);
  });
  if (count == 0) return "";
  return fmt::format("That adds {} of {} a pupil on average{}; {} has most to gain, {}.",
                     quantity(Shown::gain, sum / static_cast<double>(count), units),
                     carry && total ? "carry or total (each pupil's own goal)"
                     : carry        ? "carry"
                                    : "total distance",
                     count < rows ? fmt::format(" of the other {}", in_words(count)) : "", best,
                     quantity(Shown::gain, most, units));
}

// "99": never 0 nor 100, nor rounded up to where the next word for how sure it is begins.
std::string percent_of(const ClinicRow& row) {
  constexpr EnumArray<Certainty, double> kMost{0.99, 0.894, 0.694};
  return fmt::format("{:.0f}", 100.0 * std::clamp(row.probability, 0.01, kMost[row.certainty]));
}

// Who should be measured before anything is changed, by what is to be measured.
std::vector<std::string> measuring_first(const ClinicAnswer& answer) {
  constexpr std::size_t kMostNames = 6;
  std::vector<std::string> out;
  for (const Measure m : kAllOf<Measure>) {
    std::vector<std::string> names;
    each_row(answer, [&](const ClinicRow& row, const std::string& file) {
      if (row.feasible && row.measure_first == m) names.push_back(who(row.name, file));
    });
    if (!names.empty()) out.push_back(fmt::format("{} for {}", kMeasureWords[m], listed_at_most(names, kMostNames)));
  }
  return out;
}

// Whose sleeve to turn, or which head to set how.
std::vector<std::string> sleeves_of(const ClinicAnswer& answer) {
  std::vector<std::string> out;
  each_row(answer, [&](const ClinicRow& row, const std::string& file) {
    if (row.fit && row.fit->has_sleeve) out.push_back(fmt::format("{}, {}", who(row.name, file), fit_words(*row.fit)));
  });
  return out;
}

// What each row's club is set to, by name, and nothing for others; empty where no pupil's has one.
std::vector<std::string> settings_of(const ClinicAnswer& answer) {
  constexpr std::size_t kWidth = 6;
  std::vector<std::string> out;
  bool any = false;
  each_row(answer, [&](const ClinicRow& row, const std::string&) {
    out.push_back(row.fit ? cut_to(row.fit->setting, kWidth) : "");
    any = any || !out.back().empty();
  });
  return any ? out : std::vector<std::string>{};
}

// After the loft.
void add_settings(const std::vector<std::string>& settings, TextTable& table) {
  constexpr std::ptrdiff_t kColumn = 4;
  table.rows[0].insert(table.rows[0].begin() + kColumn, "set");
  table.rows[1].insert(table.rows[1].begin() + kColumn, "to");
  for (std::size_t i = 0; i < settings.size(); ++i)
    table.rows[i + 2].insert(table.rows[i + 2].begin() + kColumn, settings[i]);
}

}  // namespace

std::string who(std::string_view name, std::string_view file) {
  return name.empty() ? std::filesystem::path(file).stem().string() : std::string(name);
}

std::string cut_to(std::string_view text, std::size_t width) {
  std::size_t characters = 0, end = 0, before_last = 0;
  while (end < text.size()) {
    if (characters == width) return std::string(text.substr(0, before_last)) + "~";
    before_last = end;
    ++end;
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) ++end;
    ++characters;
  }
  return std::string(text);
}

std::string short_loft(double loft) {
  std::string out = fmt::format("{:.2f}", loft / kDegree);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.ends_with('.')) out.pop_back();
  return out;
}

std::string listed_at_most(const std::vector<std::string>& words, std::size_t most) {
  if (words.size() <= most + 1) return listed(words);  // "1 more" is no shorter than a name
  std::vector<std::string> out(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(most));
  out.push_back(fmt::format("{} more", words.size() - most));
  return listed(out);
}

std::string ordinal_words(std::size_t place) {
  constexpr std::array<std::string_view, 13> words{"",      "first",    "second",  "third",  "fourth",
                                                   "fifth", "sixth",    "seventh", "eighth", "ninth",
                                                   "tenth", "eleventh", "twelfth"};
  return place > 0 && place < words.size() ? std::string(words[place]) : fmt::format("{}th", place);
}

TextTable clinic_table(const ClinicAnswer& answer, UnitSystem units, std::size_t name_width) {
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  TextTable table;
  table.heads = 2;
  table.rows = {{"", "change", "sure", "loft", "attack", "gain", "8 in 10", "held", "first"},
                {"", "", "%", head(Shown::angle), head(Shown::angle), head(Shown::gain), "gain", "%", ""}};
  bool judged = false;
  const std::vector<std::string> settings = settings_of(answer);
  std::size_t widest = 3;
  for (const std::string& s : settings) widest = std::max(widest, s.size());
  if (!settings.empty()) name_width -= std::min(name_width / 2, widest + 1);  // its column is taken from the names
  each_row(answer, [&](const ClinicRow& row, const std::string& file) {
    const std::string name = cut_to(who(row.name, file), name_width);
    if (!row.feasible) {
      table.rows.push_back({name, "none *", "-", "-", "-", "-", "-", "-", "-"});
      return;
    }
    const bool interval = row.gain_low && row.gain_high;
    judged = judged || interval;
    table.rows.push_back({name, std::string(kShortLever[row.lever]), interval ? percent_of(row) : "",
                          number(Shown::angle, row.loft, units), number(Shown::angle, row.attack, units, Sign::always),
                          number(Shown::gain, row.gain, units, Sign::always),
                          interval && row.leader != Lever::leave
                              ? interval_numbers({*row.gain_low, row.gain, *row.gain_high}, units)
                              : "",
                          fmt::format("{:.0f}", 100.0 * row.fairway_share),
                          row.measure_first ? std::string(kShortMeasure[*row.measure_first]) : "-"});
  });
  if (table.rows.size() == 2) return {};
  if (!settings.empty()) add_settings(settings, table);
  table.notes.push_back(
      fmt::format("Sure: that no other choice is a yard better. First: what to measure before choosing. Gain: what the "
                  "change adds to the average drive, mishits and all{}. Held: so many of 100 drives, aimed at "
                  "it, rest on the fairway.",
                  judged ? ", and between which gains it lies eight times in ten as far as is known" : ""));
  return table;
}

std::vector<std::string> clinic_sentences(const ClinicAnswer& answer, UnitSystem units) {
  constexpr std::size_t kMostNames = 6;
  std::size_t rows = 0, infeasible = 0;
  std::vector<std::string> close;
  each_row(answer, [&](const ClinicRow& row, const std::string& file) {
    ++rows;
    infeasible += !row.feasible;
    if (row.feasible && row.gain_low && row.certainty == Certainty::close) close.push_back(who(row.name, file));
  });
  if (rows == 0) return {"No pupil could be answered."};
  const std::string levers = levers_words(answer);
  std::vector<std::string> out;
  if (levers.empty()) {
    out.push_back(
        fmt::format("For {} {} nothing within reach meets every limit.", in_words(rows), plural(rows, "pupil")));
  } else {
    out.push_back(fmt::format(
        "What to change, for {} {}: {}{}.", in_words(rows), plural(rows, "pupil"), levers,
        infeasible == 0 ? "" : fmt::format("; for {} nothing within reach meets every limit", in_words(infeasible))));
    out.push_back(gain_sentence(answer, units));
  }
  if (!close.empty()) out.push_back(fmt::format("A close call: {}.", listed_at_most(close, kMostNames)));
  const std::vector<std::string> sleeves = sleeves_of(answer);
  for (std::size_t i = 0; i < sleeves.size(); ++i) {
    if (i == 0) out.emplace_back("To fit: ");
    out.back() += sleeves[i] + (i + 1 == sleeves.size() ? "." : "; ");
  }
  const std::vector<std::string> first = measuring_first(answer);
  if (!first.empty()) {
    std::string text = "Worth measuring before choosing: ";
    for (std::size_t i = 0; i < first.size(); ++i) text += (i == 0 ? "" : "; ") + first[i];
    out.push_back(text + ".");
  }
  return out;
}

std::vector<std::string> infeasible_sentences(const ClinicAnswer& answer, UnitSystem units) {
  std::vector<std::string> out;
  each_row(answer, [&](const ClinicRow& row, const std::string& file) {
    if (row.feasible) return;
    out.push_back(fmt::format("{}: no loft and technique within reach meet every limit{}.", who(row.name, file),
                              row.must_give.empty() ? "" : "; what must give: " + limits_words(row, units)));
  });
  return out;
}

std::string failed_words(std::string_view file, const Findings& findings) {
  constexpr std::size_t kMostFindings = 5;
  std::vector<std::string> errors;
  for (const Finding& f : findings) {
    if (f.severity == Severity::error) errors.push_back(words_of(f));
  }
  std::string out = fmt::format("{}: ", file);
  for (std::size_t i = 0; i < std::min(errors.size(), kMostFindings); ++i) out += (i == 0 ? "" : "; ") + errors[i];
  return errors.size() <= kMostFindings ? out : out + fmt::format("; and {} more", errors.size() - kMostFindings);
}

std::string left_out_sentence(const PupilFolder& folder) {
  constexpr std::size_t kMostNames = 12;
  if (folder.left_out.empty()) return "";
  std::vector<std::string> names;
  for (const LeftOutFile& f : folder.left_out) names.push_back(fmt::format("{} ({})", f.file, f.format));
  return fmt::format("Left out, being no pupil's: {}.", listed_at_most(names, kMostNames));
}

}  // namespace loftwright
