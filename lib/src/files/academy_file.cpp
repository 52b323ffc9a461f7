#include "loftwright/files/academy_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/disk.hpp"
#include "files/academy_json.hpp"
#include "files/book_json.hpp"
#include "files/json_reader.hpp"
#include "files/json_values.hpp"
#include "loftwright/files/book_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/version.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostReckonings = 100000;
constexpr int kMostPooled = 1000000;
constexpr Range kPromised{-300.0, 300.0, "m"};
constexpr double kPerDegree = 1.0 / kDegree;  // [m/s per rad] of a m/s per deg

// Where means may lie: well beyond what anybody does.
constexpr Range kFollowMean{-2.0, 4.0}, kSpeedMean{-3.0, 3.0}, kShareMean{-3.0, 5.0};

OrderedJson pooled_json(const Pooled& p, double unit = 1.0) {
  return {{"mean", in("", p.mean / unit)},
          {"sd", in("", p.sd / unit)},
          {"between_sd", in("", p.between_sd / unit)},
          {"pupils", p.groups},
          {"low", in("", p.low / unit)},
          {"high", in("", p.high / unit)},
          {"between_low", in("", p.between_low / unit)},
          {"between_high", in("", p.between_high / unit)}};
}

OrderedJson reckoning_json(const Reckoning& r) {
  return {{"pupil", r.pupil},
          {"session", r.session},
          {"reached_session", r.reached_session},
          {"lever", key_of(r.lever)},
          {"predicted_m", in("m", r.predicted)},
          {"predicted_loft_m", in("m", r.predicted_loft)},
          {"predicted_low_m", in("m", r.predicted_low)},
          {"predicted_high_m", in("m", r.predicted_high)},
          {"reached_m", in("m", r.reached)}};
}

Pooled read_pooled(ObjectReader& reader, const Range& mean, double unit) {
  const double width = mean.high - mean.low;
  const auto number = [&](std::string_view key, const Range& range) {
    return reader.number(key, range, Need::required).value_or(0.0) * unit;
  };
  Pooled p;
  p.mean = number("mean", mean);
  p.sd = number("sd", {0.0, width});
  p.between_sd = number("between_sd", {0.0, width});
  p.groups = static_cast<std::size_t>(reader.whole("pupils", 0, kMostPooled, Need::required).value_or(0));
  p.low = number("low", mean);
  p.high = number("high", mean);
  p.between_low = number("between_low", {0.0, width});
  p.between_high = number("between_high", {0.0, width});
  if (p.low > p.high) reader.error(below(reader.place(), "low"), "is above high");
  if (p.between_low > p.between_high) reader.error(below(reader.place(), "between_low"), "is above between_high");
  return p;
}

Reckoning read_reckoning(ObjectReader& reader) {
  constexpr int kMostSession = 1000000000;
  Reckoning r;
  r.pupil = reader.text("pupil", Need::required).value_or("");
  if (r.pupil.size() > kLongestName)
    reader.error(below(reader.place(), "pupil"),
                 fmt::format("has {} bytes; allowed: at most {}", r.pupil.size(), kLongestName));
  r.session = reader.whole("session", 1, kMostSession, Need::required).value_or(0);
  r.reached_session = reader.whole("reached_session", 1, kMostSession, Need::required).value_or(0);
  r.lever = reader
                .word<Lever>("lever", {{"technique", Lever::technique}, {"loft", Lever::loft}, {"both", Lever::both}},
                             Need::required)
                .value_or(r.lever);
  r.predicted = reader.number("predicted_m", kPromised, Need::required).value_or(0.0);
  r.predicted_loft = reader.number("predicted_loft_m", kPromised, Need::required).value_or(0.0);
  r.predicted_low = reader.number("predicted_low_m", kPromised, Need::required).value_or(0.0);
  r.predicted_high = reader.number("predicted_high_m", kPromised, Need::required).value_or(0.0);
  r.reached = reader.number("reached_m", kPromised, Need::required).value_or(0.0);
  return r;
}

void read_calibration(ObjectReader& top, Academy& academy) {
  const Json* list = top.member("calibration", Need::required);
  if (!list) return;
  if (!list->is_array() || list->size() > kMostReckonings) {
    top.error("/calibration", fmt::format("a list of at most {} is expected", kMostReckonings));
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    read_object((*list)[i], below("/calibration", i), top.findings(),
                [&](ObjectReader& item) { academy.calibration.push_back(read_reckoning(item)); });
  }
}

// Whether a text says that it is a book; what is no JSON may have been one.
bool may_be_book(const std::string& text) {
  Findings findings;
  const std::optional<Json> document = parse_json(text, findings);
  if (!document) return true;
  if (!document->is_object() || !document->contains("format") || !(*document)["format"].is_string()) return false;
  const std::string format = (*document)["format"].get<std::string>();
  return format.substr(0, format.find('/')) == kBookFormat.substr(0, kBookFormat.find('/'));
}

// Sessions that a promise leads to are computed again, a little off: their heads must be there.
void check_heads(const Book& book, const Catalogue& catalogue) {
  const auto promises = [](const BookedSession& s) { return s.promised.has_value(); };
  if (!std::any_of(book.sessions.begin(), book.sessions.end(), promises)) return;
  std::set<std::string> heads;
  for (const BookedSession& s : book.sessions) heads.insert(s.head);
  for (const std::string& head : heads) catalogue.head(head);
}

}  // namespace

std::optional<Academy> academy_from(const Json& document, Findings& findings) {
  if (!format_is(document, kAcademyFormat, findings)) return std::nullopt;
  Academy academy;
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& top) {
    top.member("format", Need::required);  // looked at already
    top.text("program", Need::required);
    const auto pooled = [&](std::string_view key, const Range& mean, double unit, Pooled& out) {
      top.object(key, Need::required, [&](ObjectReader& reader) { out = read_pooled(reader, mean, unit); });
    };
    pooled("follow", kFollowMean, 1.0, academy.follow);
    pooled("speed_per_attack_mps_per_deg", kSpeedMean, kPerDegree, academy.speed_per_attack);
    const Json* reached = top.member("reached_share", Need::required);
    if (reached && !reached->is_null()) pooled("reached_share", kShareMean, 1.0, academy.reached_share.emplace());
    read_calibration(top, academy);
  });
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return academy;
}

void add_academy(OrderedJson& out, const Academy& academy) {
  OrderedJson calibration = OrderedJson::array();
  for (const Reckoning& r : academy.calibration) calibration.push_back(reckoning_json(r));
  out["follow"] = pooled_json(academy.follow);
  out["speed_per_attack_mps_per_deg"] = pooled_json(academy.speed_per_attack, kPerDegree);
  out["reached_share"] = academy.reached_share ? pooled_json(*academy.reached_share) : OrderedJson(nullptr);
  out["calibration"] = calibration;
}

std::optional<Academy> read_academy(std::string_view text, Findings& findings) {
  return read_document(text, findings, academy_from);
}

NamedAcademy load_academy(const std::string& file) {
  Findings findings;
  const auto academy = read_academy(read_text(file), findings);
  if (!academy) throw FileError(file, findings);
  return {file, *academy};
}

std::string academy_text(const Academy& academy) {
  OrderedJson document{{"format", kAcademyFormat}, {"program", kVersion}};
  add_academy(document, academy);
  std::string text = dumped(document, 2) + "\n";
  Findings findings;
  if (!read_academy(text, findings)) throw FileError("what is to be kept of the academy", findings);
  return text;
}

ReferenceDriveOf reference_drives(const Catalogue& catalogue) {
  return [&catalogue, settings = std::map<std::string, Setting>()](const Delivery& delivery, Handed handed,
                                                                   const std::string& head) mutable {
    auto at = settings.find(head);
    if (at == settings.end()) at = settings.emplace(head, reference_setting(head, catalogue)).first;
    return reference_drive(delivery, handed, at->second);
  };
}

AcademyFolder load_folder_of_books(const fs::path& folder, const Catalogue& catalogue) {
  if (kind_of(folder) == FileKind::none) throw InputError(fmt::format("{}: there is no such folder", folder.string()));
  AcademyFolder out;
  for (const std::string& name : list_folder(folder)) {
    if (fs::path(name).extension() != ".json" || kind_of(folder / name) != FileKind::file) continue;
    Findings findings;
    try {
      const std::string text = read_text(folder / name);
      if (!may_be_book(text)) {
        out.left_out.push_back(name);
        continue;
      }
      if (auto book = read_book(text, findings)) {
        check_heads(*book, catalogue);
        out.books.push_back({name, std::move(*book)});
        continue;
      }
    } catch (const InputError& error) {
      findings.push_back({Severity::error, "", error.what()});
    }
    out.failed.push_back({name, findings});
  }
  return out;
}

}  // namespace loftwright
