#include "files/book_json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "files/fields.hpp"
#include "loftwright/files/book_file.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kLongestId = 1000;  // [bytes] of a model, a file or a version
constexpr int kMostVersions = 1000000000;
constexpr Range kDistance{0.0, 1000.0, "m"};

constexpr std::array kReferenceFields{
    Field<ReferenceDrive>{"carry", Dimension::length, &ReferenceDrive::carry, kDistance},
    Field<ReferenceDrive>{"total", Dimension::length, &ReferenceDrive::total, kDistance},
};

// A book is written by the program, so each quantity has one key: with the unit its range is stated in.
std::string key_in(std::string_view base, std::string_view symbol) {
  return fmt::format("{}_{}", base, unit(symbol).suffix);
}

template <class S>
void write(OrderedJson& out, std::span<const Field<S>> fields, const S& from) {
  for (const Field<S>& f : fields) out[key_in(f.key, f.range.unit)] = in(f.range.unit, from.*f.member);
}

OrderedJson write_if(std::string_view symbol, const std::optional<double>& si) {
  return si ? in(symbol, *si) : OrderedJson(nullptr);
}

OrderedJson course_json(const Course& course) {
  const Conditions& c = course.conditions;
  OrderedJson out{{"ball", course.ball}, {"turf", c.turf}};
  write<Conditions>(out, kWeatherFields, c);
  out["pressure_pa"] = write_if("Pa", c.pressure);
  write<Wind>(out, kWindFields, c.wind);
  out["wind_profile"] = key_of(c.wind.profile);
  return out;
}

OrderedJson shots_json(const BookedShots& shots) {
  OrderedJson list = OrderedJson::array();
  for (const BookedShots::Reading& r : shots.readings) {
    const ReadingInfo& about = info(r.reading);
    list.push_back({{"reading", about.key},
                    {"unit", about.unit},
                    {"count", r.summary.count},
                    {"mean", in(about.unit, r.summary.mean)},
                    {"sd", OrderedJson(nullptr)}});
    // A difference: of temperatures there is none among readings, so the offset of a unit does not matter.
    if (r.summary.has_spread()) list.back()["sd"] = in(about.unit, r.summary.sd);
  }
  OrderedJson out{{"file", shots.file},
                  {"counted", shots.counted},
                  {"set_aside", shots.set_aside},
                  {"left_out", shots.left_out},
                  {"readings", list}};
  if (shots.loft_with_attack) out["loft_with_attack"] = in("", *shots.loft_with_attack);
  if (shots.speed_with_attack) out["speed_with_attack"] = in("", *shots.speed_with_attack);
  return out;
}

// The member, unless it is absent or null.
const Json* given(ObjectReader& reader, std::string_view key, Need need = Need::required) {
  const Json* value = reader.member(key, need);
  return value && !value->is_null() ? value : nullptr;
}

std::optional<double> read_quantity(ObjectReader& reader, std::string_view base, const Range& range) {
  const std::string key = key_in(base, range.unit);
  const Json* value = given(reader, key);
  return value ? reader.value_in(*value, below(reader.place(), key), &unit(range.unit), range) : std::nullopt;
}

template <class S>
void read(ObjectReader& reader, std::span<const Field<S>> fields, S& out) {
  for (const Field<S>& f : fields) {
    const std::string key = key_in(f.key, f.range.unit);
    const Json* value = reader.member(key, Need::required);
    const auto si =
        value ? reader.value_in(*value, below(reader.place(), key), &unit(f.range.unit), f.range) : std::nullopt;
    if (si) out.*f.member = *si;
  }
}

// Text that may be long but prints as it stands.
std::string read_plain(ObjectReader& reader, std::string_view key, std::size_t most, bool one_line) {
  std::string text = reader.text(key, Need::required).value_or("");
  const std::string place = below(reader.place(), key);
  if (text.size() > most) reader.error(place, fmt::format("has {} bytes; allowed: at most {}", text.size(), most));
  if (one_line && text.find_first_of("\n\t") != std::string::npos) {
    reader.error(place, "holds tabs or line ends; one line is expected");
  }
  for (std::size_t i = 1; i < text.size(); ++i) {  // U+0080 to U+009F
    if (text[i - 1] != '\xC2' || static_cast<unsigned char>(text[i]) >= 0xA0) continue;
    reader.error(place, "holds control characters; only printable text, tabs and line ends are allowed");
    break;
  }
  return text;
}

bool read_flag(ObjectReader& reader, std::string_view key) {
  const Json* value = reader.member(key, Need::required);
  if (value && !value->is_boolean()) reader.error(below(reader.place(), key), "true or false is expected");
  return value && value->is_boolean() && value->get<bool>();
}

std::size_t read_count(ObjectReader& reader, std::string_view key) {
  return static_cast<std::size_t>(reader.whole(key, 0, kMostVersions, Need::required).value_or(0));
}

BookedShots::Reading read_reading(ObjectReader& reader) {
  const std::string key = reader.text("reading", Need::required).value_or("");
  const std::string symbol = reader.text("unit", Need::required).value_or("");
  Summary summary;
  summary.count = read_count(reader, "count");
  const std::optional<Reading> reading = find_reading(key);
  if (!reading) {
    reader.error(below(reader.place(), "reading"), fmt::format("{} is no reading", in_quotes(key)));
    for (const char* other : {"mean", "sd"}) reader.member(other, Need::required);
    return {};
  }
  const ReadingInfo& about = info(*reading);
  if (symbol != about.unit) reader.error(below(reader.place(), "unit"), fmt::format("\"{}\" is expected", about.unit));
  const Unit* const as = about.unit.empty() ? nullptr : &unit(about.unit);
  const auto value = [&](std::string_view name, double low, double high) {
    const Json* found = given(reader, name);
    const Range range{as ? as->from_si(low) : low, as ? as->from_si(high) : high, about.unit};
    return found ? reader.value_in(*found, below(reader.place(), name), as, range) : std::nullopt;
  };
  summary.mean = value("mean", about.low, about.high).value_or(0.0);
  summary.sd = value("sd", 0.0, about.high - about.low).value_or(0.0);
  if (summary.has_spread()) summary.standard_error = summary.sd / std::sqrt(static_cast<double>(summary.count));
  return {*reading, summary};
}

// Hands every item of a list to `read`.
void read_list(ObjectReader& reader, std::string_view key, std::size_t most, const ReadMembers& read) {
  const Json* list = reader.member(key, Need::required);
  if (!list) return;
  const std::string place = below(reader.place(), key);
  if (!list->is_array() || list->size() > most) {
    reader.error(place, fmt::format("a list of at most {} is expected", most));
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) read_object((*list)[i], below(place, i), reader.findings(), read);
}

BookedShots read_shots(ObjectReader& reader) {
  BookedShots shots;
  shots.file = read_plain(reader, "file", kLongestId, true);
  shots.counted = read_count(reader, "counted");
  shots.set_aside = read_count(reader, "set_aside");
  shots.left_out = read_count(reader, "left_out");
  read_list(reader, "readings", kCountOf<Reading>,
            [&](ObjectReader& item) { shots.readings.push_back(read_reading(item)); });
  shots.loft_with_attack = reader.number("loft_with_attack", {-1.0, 1.0}, Need::optional);
  shots.speed_with_attack = reader.number("speed_with_attack", {-1.0, 1.0}, Need::optional);
  return shots;
}

Course read_course(ObjectReader& reader) {
  Course course;
  Conditions& c = course.conditions;
  course.ball = read_plain(reader, "ball", kLongestId, true);
  c.turf = read_plain(reader, "turf", kLongestId, true);
  read<Conditions>(reader, kWeatherFields, c);
  c.pressure = read_quantity(reader, "pressure", about(Quantity::pressure).allowed);
  read<Wind>(reader, kWindFields, c.wind);
  c.wind.profile = read_wind_profile(reader, Need::required).value_or(c.wind.profile);
  return course;
}

// A part of a session that may be null.
template <class Part>
std::optional<Part> read_part(ObjectReader& reader, std::string_view key, Part (*read_members)(ObjectReader&),
                              Need need = Need::required) {
  const Json* value = given(reader, key, need);
  if (!value) return std::nullopt;
  std::optional<Part> part;
  read_object(*value, below(reader.place(), key), reader.findings(), [&](ObjectReader& r) { part = read_members(r); });
  return part;
}

std::optional<Day> read_day(ObjectReader& reader) {
  const auto text = reader.text("date", Need::required);
  if (!text) return std::nullopt;
  try {
    if (const auto day = parse_day(*text)) return day;
    reader.error(below(reader.place(), "date"),
                 fmt::format("is {}; a day as YYYY-MM-DD is expected", in_quotes(*text)));
  } catch (const InputError& e) {
    reader.error(below(reader.place(), "date"), e.what());
  }
  return std::nullopt;
}

BookedSleeve read_booked_setting(ObjectReader& reader) {
  BookedSleeve out;
  out.name = read_plain(reader, "name", kLongestName, true);
  out.head_loft = read_quantity(reader, "head_loft", about(Quantity::loft).allowed).value_or(0.0);
  out.face = read_quantity(reader, "face", about(Quantity::sleeve_turn).allowed).value_or(0.0);
  return out;
}

BookedSession read_session(ObjectReader& reader) {
  BookedSession s;
  s.number = reader.whole("session", 1, kMostVersions, Need::required).value_or(0);
  s.date = read_day(reader).value_or(Day{});
  s.notes = read_plain(reader, "notes", kLongestNotes, false);
  reader.object("club", Need::required, [&](ObjectReader& club) {
    s.loft = read_quantity(club, "loft", about(Quantity::loft).allowed);
    s.head = read_plain(club, "head", kLongestId, true);
    s.sleeve = read_part<BookedSleeve>(club, "setting", read_booked_setting, Need::optional);
  });
  s.course = read_part<Course>(reader, "course", read_course);
  reader.object("delivery", Need::required, [&](ObjectReader& d) { read<Delivery>(d, kDeliveryFields, s.delivery); });
  s.delivery_inferred = read_flag(reader, "delivery_inferred");
  s.shots = read_part<BookedShots>(reader, "shots", read_shots);
  reader.object("reference", Need::required, [&](ObjectReader& r) {
    read<ReferenceDrive>(r, kReferenceFields, s.reference);
    s.reference.program = read_plain(r, "program", kLongestId, true);
  });
  s.promised = read_part<Promise>(reader, "promised", read_promise, Need::optional);
  return s;
}

void read_all(ObjectReader& top, Book& book) {
  top.member("format", Need::required);  // looked at already
  book.version = top.whole("version", 1, kMostVersions, Need::required).value_or(0);
  book.pupil = read_plain(top, "pupil", kLongestName, true);
  book.handed = read_handed(top, Need::required).value_or(Handed::right);
  std::set<int> numbers;
  read_list(top, "sessions", kMostSessions, [&](ObjectReader& item) {
    book.sessions.push_back(read_session(item));
    const int number = book.sessions.back().number;
    const std::string place = below(item.place(), "session");
    if (!numbers.insert(number).second) item.error(place, fmt::format("another session has the number {} too", number));
    if (number > book.version)
      item.error(place, fmt::format("is {}; at most the book's version, {}, is expected", number, book.version));
  });
}

}  // namespace

OrderedJson session_json(const BookedSession& s) {
  OrderedJson delivery, reference;
  write<Delivery>(delivery, kDeliveryFields, s.delivery);
  write<ReferenceDrive>(reference, kReferenceFields, s.reference);
  reference["program"] = s.reference.program;
  OrderedJson out{{"session", s.number},
                  {"date", text_of(s.date)},
                  {"notes", s.notes},
                  {"club", {{"loft_deg", write_if("deg", s.loft)}, {"head", s.head}}},
                  {"course", s.course ? course_json(*s.course) : OrderedJson(nullptr)},
                  {"delivery", delivery},
                  {"delivery_inferred", s.delivery_inferred},
                  {"shots", s.shots ? shots_json(*s.shots) : OrderedJson(nullptr)},
                  {"reference", reference}};
  if (s.sleeve) {
    out["club"]["setting"] = {{"name", s.sleeve->name},
                              {"head_loft_deg", in("deg", s.sleeve->head_loft)},
                              {"face_deg", in("deg", s.sleeve->face)}};
  }
  if (s.promised) out["promised"] = promise_json(*s.promised);
  return out;
}

std::optional<Book> book_from(const Json& document, Findings& findings) {
  if (!format_is(document, kBookFormat, findings)) return std::nullopt;
  Book book;
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& top) { read_all(top, book); });
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  std::sort(book.sessions.begin(), book.sessions.end(), [](const BookedSession& a, const BookedSession& b) {
    return a.date != b.date ? a.date < b.date : a.number < b.number;
  });
  return book;
}

std::optional<Book> read_book(std::string_view text, Findings& findings) {
  return read_document(text, findings, book_from);
}

std::string book_text(const Book& book) {
  OrderedJson sessions = OrderedJson::array();
  for (const BookedSession& s : book.sessions) sessions.push_back(session_json(s));
  const OrderedJson document{{"format", kBookFormat},
                             {"version", book.version},
                             {"pupil", book.pupil},
                             {"handed", key_of(book.handed)},
                             {"sessions", sessions}};
  std::string text;
  try {
    text = dumped(document, 2) + "\n";
  } catch (const OrderedJson::type_error&) {
    throw InputError("a name, a note or a file's name is not UTF-8 text");
  }
  Findings findings;
  if (!read_book(text, findings)) throw FileError("what is to be kept in the book", findings);
  return text;
}

}  // namespace loftwright
