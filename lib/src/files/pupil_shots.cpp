#include <algorithm>

#include "files/pupil_reader.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/shots/inference.hpp"

namespace loftwright {

namespace {

// "shots" as written: a file's name, or an object that says how to read it.
struct ListToRead {
  std::string file;
  std::optional<std::string> columns{};
  ReadOptions options{};
  Outliers odd = Outliers::keep;
};

void read_map(ObjectReader& reader, ReadOptions& options) {
  const Json* map = reader.member("map", Need::optional);
  if (!map) return;
  const std::string place = below(reader.place(), "map");
  if (!map->is_object()) return reader.error(place, "an object is expected, as in {\"attack\": \"Angle (deg)\"}");
  for (const auto& [key, head] : map->items()) {
    if (!head.is_string()) {
      reader.error(below(place, key), "the head of a column in double quotes is expected");
      continue;
    }
    try {
      options.overrides.push_back(column_override(key, head.get_ref<const std::string&>()));
    } catch (const InputError& e) {
      reader.error(below(place, key), e.what());
    }
  }
}

void read_how(ObjectReader& reader, ListToRead& list) {
  list.file = reader.text("file", Need::required).value_or("");
  list.columns = reader.text("columns", Need::optional);
  read_map(reader, list.options);
  list.options.club = reader.text("club", Need::optional);
  list.options.decimal = reader.word<char>("decimal", {{"point", '.'}, {"comma", ','}}, Need::optional);
  list.odd =
      reader.word<Outliers>("odd", {{"keep", Outliers::keep}, {"leave-out", Outliers::leave_out}}, Need::optional)
          .value_or(Outliers::keep);
}

// The block of the list; the flight has no part in it, so any conditions will do.
std::optional<DeliveryBlock> block_of(ObjectReader& top, const ListToRead& how, const PupilReading& r) {
  const std::string place = below(top.place(), "shots");
  const ColumnMap words = how.columns ? load_columns(r.folder / *how.columns) : built_in_columns();
  const ShotList list = load_shots(r.folder / how.file, words, how.options);
  for (const std::string& sentence : remarks(list, how.file)) top.warn(place, sentence);
  Setting setting = setting_for(Course{}, Setting{}.head_id, r.catalogue);
  setting.head = *r.head;
  setting.ball = *r.ball;
  auto block = delivery_block(list, setting, r.pupil.handed, how.odd);
  if (!block) {
    top.error(place,
              fmt::format("{}: a delivery needs club speed, attack and delivered loft, or ball speed, launch and "
                          "spin",
                          how.file));
  }
  return block;
}

}  // namespace

void read_shots(ObjectReader& top, PupilReading& r) {
  const Json* shots = top.member("shots", Need::optional);
  if (!shots) return;
  const std::string place = below(top.place(), "shots");
  for (const char* other : {"delivery", "launch", "measured_shots"}) {
    if (top.has(other)) top.error(below(top.place(), other), "\"shots\" says that already: leave one of the two out");
  }
  const std::size_t before = top.findings().size();
  ListToRead how;
  if (shots->is_string()) {
    how.file = shots->get<std::string>();
  } else {
    read_object(*shots, place, top.findings(), [&](ObjectReader& reader) { read_how(reader, how); });
  }
  if (top.findings().size() > before || !r.head || !r.ball) return;
  try {
    r.block = block_of(top, how, r);
  } catch (const InputError& e) {
    top.error(place, on_one_line(e));
  }
  if (!r.block) return;
  r.pupil.delivery = r.block->mean;
  r.pupil.delivery_inferred = r.block->inferred;
  r.pupil.measured_shots = static_cast<int>(std::min<std::size_t>(r.block->count, kMostMeasuredShots));
  r.delivery_known = true;
  for (const std::string& sentence : remarks(*r.block)) r.tell(Datum::measured_shots, "{}: {}.", how.file, sentence);
}

}  // namespace loftwright
