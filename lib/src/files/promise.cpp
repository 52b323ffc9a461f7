// What advice promised: from the answer of advise, and in a book.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "files/book_json.hpp"
#include "files/json_reader.hpp"
#include "loftwright/files/advice_file.hpp"
#include "loftwright/files/book_file.hpp"

namespace loftwright {

namespace {

constexpr std::string_view kAdviceFormat = "loftwright-advise/2";
constexpr Range kGain{-300.0, 300.0, "m"};
constexpr Range kAnyAngle{-90.0, 90.0, "deg"};

constexpr std::pair<std::string_view, Lever> kPromisingLevers[] = {
    {"technique", Lever::technique}, {"loft", Lever::loft}, {"both", Lever::both}};
constexpr std::pair<std::string_view, Goal> kGoals[] = {{"carry", Goal::carry}, {"total", Goal::total}};

// Members of an answer that has many more than are asked for. Whatever is missing or wrong is a finding.
class Answer {
 public:
  Answer(const Json& document, Findings& findings) : document_(document), findings_(findings) {}

  const Json* at(const std::string& place) {
    const Json::json_pointer pointer(place);
    if (document_.contains(pointer)) return &document_.at(pointer);
    findings_.push_back({Severity::error, place, "is missing"});
    return nullptr;
  }
  double number(const std::string& place, const Range& range) {
    const Json* value = at(place);
    const bool given = value && value->is_number();
    const double read = given ? value->get<double>() : 0.0;
    if (given && read >= range.low && read <= range.high) return unit(range.unit).to_si(read);
    if (value)
      findings_.push_back(
          {Severity::error, place, fmt::format("a number from {:g} to {:g} is expected", range.low, range.high)});
    return 0.0;
  }
  std::string text(const std::string& place) {
    const Json* value = at(place);
    if (value && !value->is_string()) findings_.push_back({Severity::error, place, "text is expected"});
    return value && value->is_string() ? value->get<std::string>() : "";
  }

 private:
  const Json& document_;
  Findings& findings_;
};

Delivery delivery_at(Answer& answer, const std::string& place) {
  Delivery out;
  for (const DeliveryQuantity& q : kDeliveryQuantities) {
    const QuantityInfo& info = about(q.quantity);
    out.*q.value =
        answer.number(fmt::format("{}/{}_{}", place, info.key, unit(info.allowed.unit).suffix), info.allowed);
  }
  return out;
}

std::string_view strategy_key(Lever lever) { return key_of(strategy_of(lever)); }

// The first choice: the one with the most mean net gain.
std::optional<AdvicePromise> promise_of(Answer& answer, Findings& findings) {
  const std::string lever = answer.text("/choices/0/lever");
  if (lever == key_of(Lever::leave)) return std::nullopt;
  const auto* const known = std::find_if(std::begin(kPromisingLevers), std::end(kPromisingLevers),
                                         [&](const auto& pair) { return pair.first == lever; });
  if (known == std::end(kPromisingLevers)) {
    findings.push_back({Severity::error, "/choices/0/lever", "technique, loft, both or leave is expected"});
    return std::nullopt;
  }
  AdvicePromise out{};
  out.promise.lever = known->second;
  out.promise.goal = answer.text("/goal") == key_of(Goal::total) ? Goal::total : Goal::carry;
  out.promise.loft = answer.number("/choices/0/loft_deg", about(Quantity::loft).allowed);
  out.promise.attack = answer.number("/choices/0/attack_deg", kAnyAngle);
  const Json* low = answer.at("/choices/0/gain_low_m");
  if (low && low->is_null()) {
    findings.push_back({Severity::error, "/choices/0/gain_low_m",
                        "is null: the advice has no interval; ask for it with draws, or where limits can be met"});
    return std::nullopt;
  }
  out.promise.gain = answer.number("/choices/0/gain_m", kGain);
  out.promise.gain_low = answer.number("/choices/0/gain_low_m", kGain);
  out.promise.gain_high = answer.number("/choices/0/gain_high_m", kGain);
  out.measured = delivery_at(answer, "/pupil/delivery");
  out.handed = answer.text("/pupil/handed") == key_of(Handed::left) ? Handed::left : Handed::right;
  out.head = answer.text("/models/head");
  out.loft_alone = out.promised = out.measured;
  out.loft_alone.dynamic_loft +=
      out.promise.loft - answer.number("/strategies/as_is/loft_deg", about(Quantity::loft).allowed);
  const std::string place = fmt::format("/strategies/{}", strategy_key(out.promise.lever));
  out.promised.attack = out.promise.attack;
  out.promised.dynamic_loft = answer.number(place + "/dynamic_loft_deg", about(Quantity::dynamic_loft).allowed);
  out.promised.club_speed = answer.number(place + "/club_speed_mps", about(Quantity::club_speed).allowed);
  return out;
}

}  // namespace

std::optional<AdvicePromise> read_advice(std::string_view text, Findings& findings) {
  return read_document(text, findings, [](const Json& document, Findings& mine) -> std::optional<AdvicePromise> {
    if (!format_is(document, kAdviceFormat, mine)) return std::nullopt;
    Answer answer(document, mine);
    if (!answer.at("/choices/0")) return std::nullopt;
    return promise_of(answer, mine);
  });
}

Promise promise_for(const BookedSession& session, Handed handed, const AdvicePromise& advice, const Setting& setting) {
  if (advice.handed != handed)
    throw InputError(fmt::format("the advice is of a {}-handed pupil", key_of(advice.handed)));
  if (advice.head != session.head)
    throw InputError(fmt::format("the advice was computed with the head {}, the session has {}", in_quotes(advice.head),
                                 in_quotes(session.head)));
  for (const Quantity quantity : {Quantity::attack, Quantity::dynamic_loft, Quantity::club_speed}) {
    const auto row = std::find_if(kDeliveryQuantities.begin(), kDeliveryQuantities.end(),
                                  [&](const DeliveryQuantity& q) { return q.quantity == quantity; });
    const double theirs = advice.measured.*row->value, ours = session.delivery.*row->value;
    if (std::abs(theirs - ours) <= kOtherSwing.*row->value) continue;
    const Unit& shown = unit(about(quantity).typed);
    throw InputError(
        fmt::format("the advice is of another swing: {} {:.1f} {}, and {:.1f} in this session; keep it with the "
                    "session it was given on",
                    about(quantity).title, shown.from_si(theirs), shown.symbol, shown.from_si(ours)));
  }
  Promise out = advice.promise;
  const auto gain = [&](const Delivery& delivery) {
    const ReferenceDrive drive = reference_drive(delivery, handed, setting);
    return out.goal == Goal::carry ? drive.carry - session.reference.carry : drive.total - session.reference.total;
  };
  out.reference_gain = gain(advice.promised);
  out.reference_loft_gain = out.lever == Lever::technique ? 0.0 : gain(advice.loft_alone);
  return out;
}

OrderedJson promise_json(const Promise& p) {
  return {{"lever", key_of(p.lever)},
          {"goal", key_of(p.goal)},
          {"loft_deg", in("deg", p.loft)},
          {"attack_deg", in("deg", p.attack)},
          {"gain_m", in("m", p.gain)},
          {"gain_low_m", in("m", p.gain_low)},
          {"gain_high_m", in("m", p.gain_high)},
          {"reference_gain_m", in("m", p.reference_gain)},
          {"reference_loft_gain_m", in("m", p.reference_loft_gain)}};
}

Promise read_promise(ObjectReader& reader) {
  Promise p;
  p.lever = reader.word<Lever>("lever", {kPromisingLevers[0], kPromisingLevers[1], kPromisingLevers[2]}, Need::required)
                .value_or(p.lever);
  p.goal = reader.word<Goal>("goal", {kGoals[0], kGoals[1]}, Need::required).value_or(p.goal);
  const auto number = [&](std::string_view key, const Range& range) {
    const Json* value = reader.member(key, Need::required);
    return value ? reader.value_in(*value, below(reader.place(), key), &unit(range.unit), range).value_or(0.0) : 0.0;
  };
  p.loft = number("loft_deg", about(Quantity::loft).allowed);
  p.attack = number("attack_deg", kAnyAngle);
  p.gain = number("gain_m", kGain);
  p.gain_low = number("gain_low_m", kGain);
  p.gain_high = number("gain_high_m", kGain);
  p.reference_gain = number("reference_gain_m", kGain);
  p.reference_loft_gain = number("reference_loft_gain_m", kGain);
  if (p.gain_low > p.gain_high) reader.error(below(reader.place(), "gain_low_m"), "is above gain_high_m");
  return p;
}

}  // namespace loftwright
