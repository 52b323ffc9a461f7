// What a tuning means in plain words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loftwright/report/words.hpp"
#include "loftwright/tune/tune.hpp"

namespace loftwright {

// What a reading that was fitted to is called: of the total it is the run.
std::string_view fitted_title(Reading reading);

// Whether tuning is worth having: how the tuned model predicts shots it was not fitted to.
std::string tune_verdict_sentence(const TuneResult& result);

// What the shots cannot tell, what was taken instead of what was not measured, and what does not fit.
std::vector<std::string> tune_sentences(const TuneResult& result, UnitSystem units);

}  // namespace loftwright
