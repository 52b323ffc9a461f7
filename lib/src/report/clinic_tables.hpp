// What is said of many pupils, for the screen and the pages: tables and sentences.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loftwright/report/json.hpp"
#include "report/text_table.hpp"

namespace loftwright {

inline bool is_answered(const ClinicResult& result) { return result.row.has_value(); }
inline bool is_answered(const CurveResult& result) { return result.curve.has_value(); }

// Who it is: the name in the file, or the file's own.
std::string who(std::string_view name, std::string_view file);

// At most so many characters, the last of them a sign that something is cut off.
std::string cut_to(std::string_view text, std::size_t width);

// A loft with as many decimals as it has, without its unit: "10.5", "12".
std::string short_loft(double loft);

// "A, B and C", of many the first and how many more there are.
std::string listed_at_most(const std::vector<std::string>& words, std::size_t most);

// "first" .. "twelfth", then "13th".
std::string ordinal_words(std::size_t place);

// A row a pupil that was answered, in the order of the files; a name takes at most `name_width` characters.
TextTable clinic_table(const ClinicAnswer& answer, UnitSystem units, std::size_t name_width);

// What to change for how many, what that adds, who gains most, and what to measure first. The first is the answer.
std::vector<std::string> clinic_sentences(const ClinicAnswer& answer, UnitSystem units);

// Who cannot be helped within the limits, and what would have to give. A sentence each.
std::vector<std::string> infeasible_sentences(const ClinicAnswer& answer, UnitSystem units);

// What an academy gave of what the files leave open, for whom, and what is usually reached. Empty without one.
std::vector<std::string> academy_sentences(const ClinicAnswer& answer, UnitSystem units);
std::vector<std::string> academy_sentences(const RackAnswer& answer);

// Files that could not be used, each with its first findings.
template <class Result>
std::vector<std::string> failed_sentences(const PupilFolder& folder, const std::vector<Result>& results);
// What is no pupil's, in one sentence; empty when there is none.
std::string left_out_sentence(const PupilFolder& folder);
std::string failed_words(std::string_view file, const Findings& findings);

template <class Result>
std::vector<std::string> failed_sentences(const PupilFolder& folder, const std::vector<Result>& results) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (!is_answered(results[i])) out.push_back(failed_words(folder.files[i], results[i].findings));
  }
  return out;
}

}  // namespace loftwright
