#include "loftwright/files/session_pupil.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "files/book_json.hpp"
#include "files/json_text.hpp"
#include "files/json_values.hpp"
#include "files/model_file.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace {

constexpr double kSameMarkedLoft = 1e-6;  // [rad] rounding of files

const Summary* summary_in(const BookedSession& session, Quantity quantity) {
  if (!session.shots) return nullptr;
  for (const BookedShots::Reading& r : session.shots->readings) {
    if (quantity_of(r.reading) == quantity) return &r.summary;
  }
  return nullptr;
}

// Whether the session says this part of its delivery: what stands at zero in one that was typed may never have been
// measured.
bool is_measured(const BookedSession& session, const DeliveryQuantity& part) {
  if (part.needed || session.delivery_inferred) return true;
  return session.shots ? summary_in(session, part.quantity) != nullptr : session.delivery.*part.value != 0.0;
}

// Whatever unit it was given in.
void erase_quantity(OrderedJson& object, Quantity quantity) {
  const std::string key(about(quantity).key);
  for (auto at = object.begin(); at != object.end();) {
    const std::string& name = at.key();
    const bool same =
        name == key || (name.starts_with(key + "_") && find_suffix(std::string_view(name).substr(key.size() + 1)));
    at = same ? object.erase(at) : std::next(at);
  }
}

void put(OrderedJson& object, Quantity quantity, double si) {
  const std::string_view symbol = about(quantity).allowed.unit;
  erase_quantity(object, quantity);
  object[fmt::format("{}_{}", about(quantity).key, unit(symbol).suffix)] = in(symbol, si);
}

// The member of this name in any unit of an angle. [rad]
std::optional<double> angle_in(const OrderedJson& object, std::string_view base) {
  for (const auto& [name, value] : object.items()) {
    const bool named = name.starts_with(std::string(base) + "_");
    const Unit* const as = named ? find_suffix(std::string_view(name).substr(base.size() + 1)) : nullptr;
    if (as && as->dimension == Dimension::angle && value.is_number()) return as->to_si(value.get<double>());
  }
  return std::nullopt;
}

OrderedJson& object_in(OrderedJson& document, const char* key) {
  if (!document.contains(key) || !document[key].is_object()) document[key] = OrderedJson::object();
  return document[key];
}

// Makes a pupil's document say what a session says.
class Merging {
 public:
  Merging(const Book& book, const std::string& book_file, const BookedSession& session, OrderedJson document,
          bool has_file)
      : book_(book), book_file_(book_file), session_(session), document_(std::move(document)), has_file_(has_file) {}

  SessionPupil merge() {
    put_delivery();
    put_scatter();
    put_count();
    put_name_and_hand();
    put_club();
    put_course();
    took("rest", has_file_ ? TakenFrom::pupil_file : TakenFrom::usual);
    out_.text = dumped(document_, 2) + "\n";
    return std::move(out_);
  }

 private:
  void took(std::string_view key, TakenFrom from) { out_.taken.push_back({key, from}); }
  bool has(const char* key) const { return document_.contains(key); }

  void put_delivery() {
    for (const char* other : {"launch", "shots", "measured_shots"}) document_.erase(other);
    OrderedJson& delivery = object_in(document_, "delivery");
    for (const DeliveryQuantity& part : kDeliveryQuantities) {
      if (is_measured(session_, part)) put(delivery, part.quantity, session_.delivery.*part.value);
    }
    took("delivery", TakenFrom::session);
  }

  void put_scatter() {
    const bool in_file = has("spread");
    bool measured = false;
    for (const DeliveryQuantity& part : kDeliveryQuantities) {
      const Summary* summary = session_.delivery_inferred ? nullptr : summary_in(session_, part.quantity);
      if (!summary || !summary->has_spread()) continue;
      OrderedJson& spread = object_in(document_, "spread");
      const std::string_view symbol = part.sd.unit;  // a difference: no offset
      erase_quantity(spread, part.quantity);
      spread[fmt::format("{}_{}", about(part.quantity).key, unit(symbol).suffix)] = in(symbol, summary->sd);
      measured = true;
    }
    took("scatter", measured ? TakenFrom::session : in_file ? TakenFrom::pupil_file : TakenFrom::usual);
  }

  void put_count() {
    if (!session_.shots) return took("measured_shots", TakenFrom::usual);
    std::size_t count = session_.shots->counted;
    for (const DeliveryQuantity& part : kDeliveryQuantities) {
      const Summary* summary =
          part.needed && !session_.delivery_inferred ? summary_in(session_, part.quantity) : nullptr;
      if (summary) count = std::min(count, summary->count);
    }
    document_["measured_shots"] = std::clamp<std::size_t>(count, 1, kMostMeasuredShots);
    took("measured_shots", TakenFrom::session);
  }

  void put_name_and_hand() {
    const bool named = has("name") && document_["name"].is_string() && !document_["name"].get<std::string>().empty();
    if (!named) document_["name"] = book_.pupil;
    if (named && document_["name"] != book_.pupil) {
      out_.notices.push_back(fmt::format("the book is of '{}', the pupil's file of '{}'", book_.pupil,
                                         document_["name"].get<std::string>()));
    }
    took("name", named ? TakenFrom::pupil_file : TakenFrom::book);
    const bool handed = has("handed");
    if (!handed) document_["handed"] = key_of(book_.handed);
    if (handed && document_["handed"] != key_of(book_.handed) && document_["handed"].is_string()) {
      throw InputError(fmt::format("the book is of a {}-handed pupil, the pupil's file of a {}-handed one",
                                   key_of(book_.handed), document_["handed"].get<std::string>()));
    }
    took("handed", handed ? TakenFrom::pupil_file : TakenFrom::book);
  }

  // Of the session, or of the last one before it on the same head that says its loft.
  const BookedSession* session_with_loft() const {
    const auto here = std::find_if(book_.sessions.begin(), book_.sessions.end(),
                                   [&](const BookedSession& s) { return s.number == session_.number; });
    for (auto at = here;; --at) {
      if (at->loft && at->head == session_.head) return &*at;
      if (at == book_.sessions.begin()) return nullptr;
    }
  }

  // The setting of this name, of the sleeve in the pupil's file.
  const OrderedJson* setting_in_file(const std::string& name) const {
    const OrderedJson::json_pointer place("/sleeve/settings");
    if (!document_.contains(place) || !document_.at(place).is_array()) return nullptr;
    for (const OrderedJson& s : document_.at(place)) {
      if (s.is_object() && s.contains("name") && s["name"] == name) return &s;
    }
    return nullptr;
  }

  // What the session was hit with: the head as marked and how it was set, so far as the pupil's file knows the sleeve.
  void put_loft(OrderedJson& club, const BookedSession& from, const std::optional<double>& file_loft) {
    if (club.contains("setting") && !club["setting"].is_string()) return;  // an error that its reader tells
    const std::string in_file = club.value("setting", std::string());
    const OrderedJson* const now = in_file.empty() ? nullptr : setting_in_file(in_file);
    const double added = now ? angle_in(*now, "loft").value_or(0.0) : 0.0;
    if (now && !from.sleeve && file_loft && std::abs(*file_loft + added - *from.loft) <= kSameMarkedLoft) return;
    club.erase("setting");
    double loft = *from.loft;
    if (from.sleeve) loft = put_setting(club, from, in_file);
    const bool other = file_loft && std::abs(*file_loft - loft) > kSameMarkedLoft;
    if (other) {
      out_.notices.push_back(fmt::format(
          "the session was hit with {:.4g} deg on the driver, the pupil's file says {:.4g} deg: that of the session is "
          "taken as the club in hand",
          loft / kDegree, *file_loft / kDegree));
    } else if (!in_file.empty() && !from.sleeve) {
      out_.notices.push_back(fmt::format(
          "the session was hit with {:.4g} deg on the driver, as it is marked, the pupil's file has it set to {}: as "
          "marked is taken, as in the session",
          loft / kDegree, in_quotes(in_file)));
    }
    put(club, Quantity::loft, loft);
  }

  // [rad] marked on the head; where no file knows the settings of its sleeve, the loft it was played with.
  double put_setting(OrderedJson& club, const BookedSession& from, const std::string& in_file) {
    const BookedSleeve& set = *from.sleeve;
    const std::string words =
        fmt::format("a {:.4g} deg driver set to {}", set.head_loft / kDegree, in_quotes(set.name));
    if (!document_.contains(OrderedJson::json_pointer("/sleeve/settings"))) {
      out_.notices.push_back(fmt::format(
          "the session was hit with {}, and no pupil's file says what its sleeve can do: it is taken as a driver of "
          "{:.4g} deg",
          words, *from.loft / kDegree));
      return *from.loft;
    }
    club["setting"] = set.name;
    const OrderedJson* const known = setting_in_file(set.name);
    const double added = *from.loft - set.head_loft;
    if (known && std::abs(angle_in(*known, "loft").value_or(added) - added) > kSameMarkedLoft)
      out_.notices.push_back(
          fmt::format("the session was hit with {}, which made {:.4g} deg; the pupil's file says "
                      "otherwise of that setting, and that is taken",
                      words, *from.loft / kDegree));
    if (!in_file.empty() && in_file != set.name)
      out_.notices.push_back(
          fmt::format("the session was hit with {}, the pupil's file has it set to {}: that of the "
                      "session is taken",
                      words, in_quotes(in_file)));
    return set.head_loft;
  }

  void put_club() {
    const bool in_file = has("club") && document_["club"].is_object();
    OrderedJson& club = object_in(document_, "club");
    const std::optional<double> file_loft = angle_in(club, "loft");
    const BookedSession* from = session_.loft ? &session_ : file_loft ? nullptr : session_with_loft();
    if (!from && !file_loft) {
      throw InputError(fmt::format(
          "session {} of {} does not say the loft on the driver: give it with 'loftwright book edit {} --session {} "
          "--loft ANGLE', or a pupil's file that says it",
          session_.number, book_file_, book_file_, session_.number));
    }
    if (from) put_loft(club, *from, file_loft);
    took("club_loft", !from ? TakenFrom::pupil_file : from == &session_ ? TakenFrom::session : TakenFrom::book);
    const bool head_in_file = in_file && club.contains("head");
    if (head_in_file && club["head"].is_string() && club["head"] != session_.head) {
      out_.notices.push_back(
          fmt::format("the session was kept with the head '{}', the pupil's file says '{}': that of "
                      "the file is taken",
                      session_.head, club["head"].get<std::string>()));
    }
    if (!head_in_file) club["head"] = path_of(session_.head);
    took("head", head_in_file ? TakenFrom::pupil_file : TakenFrom::session);
  }

  void put_course() {
    const bool ball = has("ball"), conditions = has("conditions");
    if (session_.course) {
      OrderedJson course = session_json(session_)["course"];
      course["turf"] = path_of(session_.course->conditions.turf);
      course.erase("ball");
      if (course["pressure_pa"].is_null()) course.erase("pressure_pa");
      if (!ball) document_["ball"] = path_of(session_.course->ball);
      if (!conditions) document_["conditions"] = course;
    }
    const TakenFrom otherwise = session_.course ? TakenFrom::session : TakenFrom::usual;
    took("ball", ball ? TakenFrom::pupil_file : otherwise);
    took("conditions", conditions ? TakenFrom::pupil_file : otherwise);
  }

  // A book's paths are the user's, a pupil's file's are looked for beside it.
  std::string path_of(const std::string& name) const {
    return has_file_ && is_path(name) ? std::filesystem::absolute(name).string() : name;
  }

  const Book& book_;
  const std::string& book_file_;
  const BookedSession& session_;
  OrderedJson document_;
  bool has_file_;
  SessionPupil out_;
};

// What was taken from where, for those who look at what was assumed.
std::vector<std::string> taken_words(const SessionPupil& p, const BookedSession& session) {
  const auto parts = [&](TakenFrom from) {
    static constexpr std::pair<std::string_view, std::string_view> kWords[] = {
        {"delivery", "delivery"}, {"scatter", "scatter"}, {"measured_shots", "number of drives"},
        {"name", "name"},         {"handed", "hand"},     {"club_loft", "loft on the club"},
        {"head", "head"},         {"ball", "ball"},       {"conditions", "conditions"}};
    std::vector<std::string> words;
    for (const SessionPupil::Part& part : p.taken) {
      for (const auto& [key, word] : kWords) {
        if (part.from == from && part.key == key) words.emplace_back(word);
      }
    }
    return words;
  };
  std::vector<std::string> out{fmt::format("From session {} of {} in {}{}: {}.", p.session, text_of(p.date), p.book,
                                           session.shots ? fmt::format(" ({} drives)", session.shots->counted) : "",
                                           listed(parts(TakenFrom::session)))};
  if (const auto words = parts(TakenFrom::book); !words.empty())
    out.push_back(fmt::format("From the book: {}.", listed(words)));
  if (p.file) {
    std::vector<std::string> words = parts(TakenFrom::pupil_file);
    words.emplace_back("all the rest");
    out.push_back(fmt::format("From {}: {}.", *p.file, listed(words)));
  }
  if (session.delivery_inferred)
    out.emplace_back(
        "Only ball numbers were measured in the session: the delivery was worked out from them, for strikes at the "
        "centre of the face.");
  const bool scattered = std::any_of(p.taken.begin(), p.taken.end(), [](const SessionPupil::Part& part) {
    return part.key == "scatter" && part.from == TakenFrom::session;
  });
  if (scattered && (!p.pupil.spread || p.pupil.spread->correlations.empty()))
    out.emplace_back("A book keeps no correlations: what scatters is taken as independent.");
  return out;
}

OrderedJson document_of(const std::optional<PupilText>& file) {
  if (!file) return {{"format", kPupilFormat}};
  Findings findings;
  const auto document = parse_json(file->text, findings);
  if (!document || has_errors(findings)) throw FileError(file->file, findings);
  if (!format_is(*document, kPupilFormat, findings)) throw FileError(file->file, findings);
  return parsed(file->text);
}

}  // namespace

std::string_view key_of(TakenFrom from) {
  constexpr EnumArray<TakenFrom, std::string_view> keys{"session", "book", "pupil_file", "usual"};
  return keys[from];
}

SessionPupil pupil_of(const Book& book, const std::string& book_file, const BookedSession& session,
                      const std::optional<PupilText>& file, const Catalogue& catalogue, Findings& warnings) {
  SessionPupil out = Merging(book, book_file, session, document_of(file), file.has_value()).merge();
  out.book = book_file;
  if (file) out.file = file->file;
  out.session = session.number;
  out.date = session.date;
  Findings findings;
  std::optional<Pupil> pupil =
      read_pupil(out.text, file ? file->folder : std::filesystem::path("."), catalogue, findings);
  if (!pupil) {
    throw FileError(
        fmt::format("session {} of {}{}", session.number, book_file, file ? fmt::format(", with {}", file->file) : ""),
        findings);
  }
  warnings.insert(warnings.end(), findings.begin(), findings.end());
  out.pupil = std::move(*pupil);
  out.pupil.delivery_inferred = session.delivery_inferred;
  std::vector<std::string> assumed = taken_words(out, session);
  assumed.insert(assumed.end(), out.pupil.assumed.begin(), out.pupil.assumed.end());
  out.pupil.assumed = std::move(assumed);
  return out;
}

}  // namespace loftwright
