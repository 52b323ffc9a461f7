// What commands about a folder of pupils share.
#pragma once

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/pupil_folder.hpp"
#include "report/clinic_tables.hpp"

namespace loftwright::cli {

// Of an answer's folder, with what its academy gives; its pupils may be asked for from any thread.
template <class Answer>
EntrantSource entrants_of(const Session& session, const Answer& answer) {
  return [&](std::size_t i) {
    return entrant_of(answer.folder, i, session.catalogue, answer.academy ? &*answer.academy : nullptr);
  };
}

// As --draws, --seed and --threads say.
AdviseOptions advise_options(const Session& session);

// What an academy's lessons gave; empty when nothing is said.
std::string academy_text(const std::vector<std::string>& sentences);

// Of files that could not be used, with what is wrong; and what was left out. Empty when there is nothing to say.
template <class Result>
std::string files_text(const PupilFolder& folder, const std::vector<Result>& results) {
  std::string failed;
  for (const std::string& sentence : failed_sentences(folder, results)) failed += wrapped(printable(sentence), "  - ");
  const std::string left_out = left_out_sentence(folder);
  return section("Not answered: these files cannot be used", failed) +
         (left_out.empty() ? "" : wrapped(printable(left_out)));
}

// kInput when a file could not be used.
template <class Result>
bool any_failed(const std::vector<Result>& results) {
  return std::any_of(results.begin(), results.end(), [](const Result& r) { return !is_answered(r); });
}

}  // namespace loftwright::cli
