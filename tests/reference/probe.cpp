// Answers questions put by the Python scripts beside it, so that the library can be held against SciPy and Python's own
// CSV reader, and its instructions counted (property/instructions.py). A JSON array of questions on standard input, an
// array of answers on standard output.
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "json.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/shot/drives.hpp"
#include "loftwright/stats/detail/difference.hpp"
#include "loftwright/stats/detail/several.hpp"
#include "loftwright/stats/detail/trend.hpp"
#include "shots/csv.hpp"
#include "tune/evidence.hpp"

using namespace loftwright;
using nlohmann::json;

namespace {

json as_json(const WelchTest& t) {
  return {{"difference", t.difference},
          {"standard_error", t.standard_error},
          {"t", t.t},
          {"df", t.degrees_of_freedom},
          {"p", t.p},
          {"low", t.low},
          {"high", t.high}};
}

json table(const std::string& text, char delimiter) {
  json rows = json::array();
  try {
    const std::string clean = csv_text(text);
    CsvReader reader(clean, delimiter);
    while (auto record = reader.next()) rows.push_back({{"line", record->line}, {"cells", record->cells}});
  } catch (const InputError& error) {
    return {{"error", error.what()}};
  }
  return rows;
}

template <class Matrix>
json rows_of(const Matrix& m) {
  json out = json::array();
  for (Eigen::Index i = 0; i < m.rows(); ++i) {
    json row = json::array();
    for (Eigen::Index j = 0; j < m.cols(); ++j) row.push_back(m(i, j));
    out.push_back(row);
  }
  return out;
}

// What a tuning is made of: every shot's residuals at some places and their slope at the first, the covariance of its
// own errors, and the errors all share. Without places: what it comes to.
json tuning(const json& question) {
  const Catalogue catalogue;
  Findings findings;
  const Pupil pupil = read_pupil(question.at("pupil").get<std::string>(), ".", catalogue, findings).value();
  const Setting setting = setting_for(pupil, catalogue);
  const ShotList list = read_shots(question.at("shots").get<std::string>(), built_in_columns());
  TuneOptions options;
  options.folds = 2;
  options.tolerance = kTightFlightTolerance;
  if (!question.contains("at")) {
    const TuneResult r = tune(list, pupil, setting, options);
    json values = json::array();
    for (const TunedValue& v : r.values) {
      values.push_back({{"prior", v.prior}, {"prior_sd", v.prior_sd}, {"value", v.value}, {"sd", v.sd}});
    }
    json correlation = json::array(), widened = json::array();
    for (const auto& row : r.correlation) correlation.push_back(row.values);
    for (const TunedReading& t : r.readings) widened.push_back(t.widened);
    return {{"values", values}, {"correlation", correlation}, {"widened", widened}, {"hidden_scale", r.hidden_scale}};
  }
  std::vector<Tunables> places;
  for (const json& place : question.at("at")) {
    Tunables& at = places.emplace_back();
    for (std::size_t k = 0; k < kTunables; ++k) at[static_cast<Eigen::Index>(k)] = place.at(k);
  }
  const Gatherer model(pupil, setting, options, question.at("hidden_scale"));
  json shots = json::array();
  for (const Shot& shot : list.shots) {
    const Evidence e = model.gather(shot).value();
    const Residual first = model.residual_and_slope(e, places.front());
    json residuals = json::array();  // in braces alone it is the element itself for some compilers
    residuals.push_back(json(first.value));
    for (std::size_t n = 1; n < places.size(); ++n) residuals.push_back(json(model.residual(e, places[n])));
    shots.push_back({{"readings", e.readings},
                     {"residuals", residuals},
                     {"slope", rows_of(first.slope)},
                     {"own", rows_of(e.own)},
                     {"shared", rows_of(e.shared)}});
  }
  return shots;
}

// Some work to count: `count` flights one by one, or as many drives in eight lanes, which every processor has.
double work(const std::string& what, std::size_t count) {
  const Setting setting = setting_for(Pupil{}, Catalogue());
  double sum = 0.0;
  if (what == "flights") {
    const FlightSetting in{&setting.ball, &setting.aero, setting.air, setting.wind};
    for (std::size_t i = 0; i < count; ++i) {
      const double part = static_cast<double>(i % 100) / 100.0;
      sum += fly(Launch{50.0 + 20.0 * part, 0.25 - 0.1 * part, 0.02, 250.0 + 50.0 * part, 0.05}, in).carry;
    }
    return sum;
  }
  std::vector<DriveInput> inputs(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double part = static_cast<double>(i % 100) / 100.0;
    inputs[i].delivery = {36.0 + 12.0 * part, 0.05 * part - 0.03, 0.01, -0.01, 0.24 - 0.05 * part, 0.004, 0.003};
  }
  std::vector<Drive> drives(count);
  drive_many(inputs, Handed::right, setting, kFlightTolerance, drives, 8);
  for (const Drive& drive : drives) sum += drive.total;
  return sum;
}

// Several samples side by side, taken in turns or one after the other.
json several(const json& question) {
  const auto samples = question.at("samples").get<std::vector<std::vector<double>>>();
  std::vector<Summary> summaries;
  for (const auto& sample : samples) summaries.push_back(summarise(sample));
  std::vector<Ordered> order;
  std::vector<std::size_t> next(samples.size(), 0);
  for (const std::size_t i : question.at("order").get<std::vector<std::size_t>>())
    order.push_back({i, question.at("runs").at(i), samples[i][next[i]++]});
  const Wandering wanders = wandering(order, summaries);
  json pairs = json::array();
  for (const PairTest& p : all_pairs(summaries, independent_errors(summaries), question.at("confidence")))
    pairs.push_back({p.difference, p.standard_error, p.degrees_of_freedom, p.low, p.high});
  MeanPrior prior{question.at("between"), 3, 200'000};
  return {{"pairs", pairs},
          {"share", wanders.share},
          {"errors", wanders.errors},
          {"best", best_probabilities(summaries, wanders.errors, prior)}};
}

json answer(const json& question) {
  const std::string what = question.at("what");
  if (what == "flights" || what == "drives") return work(what, question.at("count"));
  if (what == "tuning") return tuning(question);
  if (what == "csv") return table(question.at("text"), question.at("delimiter").get<std::string>().at(0));
  if (what == "holm") return holm(question.at("p").get<std::vector<double>>());
  if (what == "range")
    return {
        {"below", studentised_range_below(question.at("q"), question.at("means"), question.at("freedom"))},
        {"exceeded", studentised_range_exceeded(question.at("chance"), question.at("means"), question.at("freedom"))}};
  if (what == "several") return several(question);
  if (what == "tail")
    return expanded_tail(question.at("confidence"), question.at("counts").at(0), question.at("counts").at(1));
  const auto x = question.at("before").get<std::vector<double>>(), y = question.at("after").get<std::vector<double>>();
  const double confidence = question.value("confidence", 0.95);
  const Summary before = summarise(x), after = summarise(y);
  if (what == "summary") {
    return {{"mean", before.mean}, {"sd", before.sd},           {"standard_error", before.standard_error},
            {"median", median(x)}, {"robust_sd", robust_sd(x)}, {"quantile", quantile(x, question.at("share"))}};
  }
  if (what == "together") return {{"covariance", covariance(x, y)}, {"correlation", *correlation(x, y)}};
  if (what == "welch") return as_json(welch(before, after, confidence));
  if (what == "hedges") return hedges_g(before, after);
  if (what == "power") return welch_power(question.at("difference"), before, after, confidence);
  if (what == "trend") {
    const Trend t = trend(x, y, confidence).value();
    return {{"slope", t.slope},
            {"intercept", t.intercepts.front()},
            {"standard_error", t.standard_error},
            {"low", t.low},
            {"high", t.high}};
  }
  if (what == "bootstrap") {
    const auto i = bootstrap_difference(x, y, {confidence, question.at("resamples"), question.at("seed")});
    return {
        {"low", i.low}, {"high", i.high}, {"percentile_low", i.percentile_low}, {"percentile_high", i.percentile_high}};
  }
  throw InputError("unknown question " + what);
}

}  // namespace

int main() {
  json answers = json::array();
  const std::string questions(std::istreambuf_iterator<char>(std::cin), {});
  for (const json& question : loftwright::test::parsed<json>(questions)) answers.push_back(answer(question));
  std::cout << answers << '\n';
}
