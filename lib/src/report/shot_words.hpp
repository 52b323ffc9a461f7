// Sentences about shot lists, for the screen and inside JSON.
#pragma once

#include <string>
#include <vector>

#include "loftwright/report/words.hpp"
#include "loftwright/shots/compare.hpp"
#include "loftwright/shots/detail/change.hpp"

namespace loftwright {

// "attack and launch rise together (correlation +0.83)". Strongest first, at most `most` of them.
std::vector<std::string> together_sentences(const ShotSummary& summary, std::size_t most = 8);

// What the two sides of the impact and the flight say about each other, in one sentence. Empty when there is nothing to
// hold against the model.
std::string consistency_sentence(const Consistency& consistency);

// The lines of a pupil's file that say what the block says: "delivery", "measured_shots" and "spread", in mph or m/s,
// deg and mm. What was not measured is left out. Without a comma after the last.
std::string pupil_lines(const DeliveryBlock& block, UnitSystem units);

// Did it change? One sentence; with `change` it names the factor that made most of it, where that is clear.
std::string verdict_sentence(const Comparison& comparison, const CompareOptions& options,
                             const std::optional<Change>& change, UnitSystem units);

// What a change leans on: deliveries worked out, readings not in both lists. A sentence each.
std::vector<std::string> remarks(const Change& change);

// What the swing's share is and what the hands', and what would tell theirs from the club's.
std::string who_words(double follow, bool club_known);

// "7 shots", "1 shot"

// "7 shots counted, 1 set aside, 2 odd left out"
std::string shots_words(const ShotList& list, Outliers odd);

// "95 %", "99.9 %"
std::string confidence_words(double confidence);

}  // namespace loftwright
