#include "files/model_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace loftwright {

namespace {

constexpr std::array kKinds{
    KindOfModel{ModelKind::ball, "balls", "loftwright-ball/1", "ball"},
    KindOfModel{ModelKind::head, "heads", "loftwright-head/1", "head"},
    KindOfModel{ModelKind::turf, "turf", "loftwright-turf/2", "turf"},
    KindOfModel{ModelKind::aero, "aero", "loftwright-aero/1", "aerodynamic model"},
};

template <class S>
void read_number(ObjectReader& reader, const ModelNumber<S>& number, Need need, S& out) {
  std::optional<double> value;
  if (number.dimension) {
    const std::optional<TypedQuantity> q = reader.quantity(number.key, *number.dimension, number.allowed, need);
    if (q) value = q->si;
  } else {
    value = reader.number(number.key, number.allowed, need);
  }
  if (value) out.*number.member = *value / number.times;
}

template <class S, std::size_t N>
void read_numbers(ObjectReader& reader, const std::array<ModelNumber<S>, N>& numbers, S& out) {
  for (const ModelNumber<S>& n : numbers) read_number(reader, n, n.needed ? Need::required : Need::optional, out);
}

ModelInfo read_info(ObjectReader& reader) {
  reader.member("format", Need::required);  // looked at already
  ModelInfo info;
  const auto text = [&](std::string_view key, std::string& into) {
    const std::optional<std::string> found = reader.text(key, Need::required);
    if (found && found->empty()) reader.error(below(reader.place(), key), "is empty");
    into = found.value_or("");
  };
  text("id", info.id);
  if (!info.id.empty() && !is_id(info.id)) {
    reader.error(below(reader.place(), "id"),
                 fmt::format("{} is no id: small letters, digits and hyphens are allowed", in_quotes(info.id)));
  }
  text("title", info.title);
  text("source", info.source);
  const auto status = reader.word<std::string>(
      "status", {{"published", "published"}, {"rules", "rules"}, {"memory", "memory"}, {"estimate", "estimate"}},
      Need::required);
  info.status = status.value_or("");
  text("note", info.note);
  return info;
}

// One model file: its format, what every model tells about itself, its own numbers, and the model's own last word.
template <class Model, class Read, class Validate>
std::optional<ModelFile<Model>> read_model(const Json& document, ModelKind kind, Findings& findings, const Read& read,
                                           const Validate& check) {
  const auto entry = std::find_if(kKinds.begin(), kKinds.end(), [&](const KindOfModel& k) { return k.kind == kind; });
  if (!format_is(document, entry->format, findings)) return std::nullopt;
  ModelFile<Model> file{};
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& reader) {
    file.info = read_info(reader);
    read(reader, file);
  });
  if (!has_errors(mine)) {
    try {
      check(file.model);
    } catch (const InputError& e) {
      mine.push_back({Severity::error, "", e.what()});
    }
  }
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return file;
}

std::optional<Interval> bare_interval(ObjectReader& reader, std::string_view key, const Range& range) {
  const Json* list = reader.member(key, Need::required);
  const std::string place = below(reader.place(), key);
  const auto ends = list ? reader.values_in(*list, place, nullptr, range) : std::nullopt;
  if (!ends) return std::nullopt;
  if (ends->size() != 2 || !((*ends)[0] < (*ends)[1])) {
    reader.error(place, "two numbers [low, high] are expected, the low one first");
    return std::nullopt;
  }
  return Interval{(*ends)[0], (*ends)[1]};
}

std::vector<double> read_axis(ObjectReader& reader, std::string_view key, const Range& range) {
  const Json* list = reader.member(key, Need::required);
  const auto values = list ? reader.values_in(*list, below(reader.place(), key), nullptr, range) : std::nullopt;
  return values.value_or(std::vector<double>{});
}

// A row a Reynolds number, a value a spin ratio.
std::vector<double> read_cells(ObjectReader& reader, std::string_view key, const Range& range, const AeroTable& axes) {
  std::vector<double> cells;
  const Json* rows = reader.member(key, Need::required);
  if (!rows || axes.reynolds.empty() || axes.spin_ratio.empty()) return cells;
  const std::string place = below(reader.place(), key);
  if (!rows->is_array() || rows->size() != axes.reynolds.size()) {
    reader.error(place, fmt::format("a list of {} rows is expected, one for each reynolds", axes.reynolds.size()));
    return cells;
  }
  for (std::size_t i = 0; i < rows->size(); ++i) {
    const std::string row_place = below(place, i);
    const auto row = reader.values_in((*rows)[i], row_place, nullptr, range);
    if (!row) continue;
    if (row->size() != axes.spin_ratio.size()) {
      reader.error(row_place, fmt::format("has {} numbers; {} are expected, one for each spin_ratio", row->size(),
                                          axes.spin_ratio.size()));
      continue;
    }
    cells.insert(cells.end(), row->begin(), row->end());
  }
  return cells;
}

AeroTable read_table(ObjectReader& reader) {
  AeroTable table;
  table.reynolds = read_axis(reader, "reynolds", kReynolds);
  table.spin_ratio = read_axis(reader, "spin_ratio", kSpinRatios);
  table.drag = read_cells(reader, "drag", kTableDrag, table);
  table.lift = read_cells(reader, "lift", kTableLift, table);
  return table;
}

// Beyond the table its edge value would hold unnoticed, so the table's extent is the widest range it may claim.
void check_within(ObjectReader& reader, const AeroModel& model, const AeroTable& table) {
  if (table.reynolds.empty() || table.spin_ratio.empty()) return;
  if (model.reynolds_low < table.reynolds.front() || model.reynolds_high > table.reynolds.back() ||
      model.spin_ratio_low < table.spin_ratio.front() || model.spin_ratio_high > table.spin_ratio.back()) {
    reader.error(below(reader.place(), "valid"), "reaches beyond the table");
  }
}

void read_aero_numbers(ObjectReader& reader, AeroModel& model) {
  enum class Form { curve, table };
  const auto form = reader.word<Form>("form", {{"curve", Form::curve}, {"table", Form::table}}, Need::required);
  if (form != Form::table) {
    AeroCurve curve;
    read_numbers(reader, kCurveNumbers, curve);
    if (const auto exponent = reader.number("lift_exponent", kLiftExponent, Need::optional))
      curve.lift_exponent = *exponent;
    reader.object("crisis", Need::optional,
                  [&](ObjectReader& crisis) { read_numbers(crisis, kCrisisNumbers, curve.crisis.emplace()); });
    model.form = curve;
  } else {
    model.form = read_table(reader);
  }
  const auto* table = std::get_if<AeroTable>(&model.form);
  if (table && !table->reynolds.empty() && !table->spin_ratio.empty()) {
    model.reynolds_low = table->reynolds.front();
    model.reynolds_high = table->reynolds.back();
    model.spin_ratio_low = table->spin_ratio.front();
    model.spin_ratio_high = table->spin_ratio.back();
  }
  reader.object("valid", table ? Need::optional : Need::required, [&](ObjectReader& valid) {
    if (const auto re = bare_interval(valid, "reynolds", kReynolds)) {
      model.reynolds_low = re->low;
      model.reynolds_high = re->high;
    }
    if (const auto s = bare_interval(valid, "spin_ratio", kSpinRatios)) {
      model.spin_ratio_low = s->low;
      model.spin_ratio_high = s->high;
    }
  });
  if (table) check_within(reader, model, *table);
}

}  // namespace

std::span<const KindOfModel> kinds_of_model() { return kKinds; }

bool is_path(std::string_view name) { return name.ends_with(".json"); }

bool is_id(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

std::string resolved(std::string_view name, const std::filesystem::path& folder) {
  return is_path(name) ? (folder / name).lexically_normal().string() : std::string(name);
}

std::vector<std::string> read_head_numbers(ObjectReader& reader, Need need, Head& head) {
  std::vector<std::string> absent;
  for (const ModelNumber<Head>& n : kHeadNumbers) {
    read_number(reader, n, n.needed ? need : Need::optional, head);
    if (n.needed && !reader.has(n.key)) absent.emplace_back(n.key);
  }
  return absent;
}

std::optional<ModelFile<BallModel>> read_ball(const Json& document, Findings& findings) {
  return read_model<BallModel>(
      document, ModelKind::ball, findings,
      [](ObjectReader& reader, ModelFile<BallModel>& file) {
        read_numbers(reader, kBallNumbers, file.model.ball);
        file.model.aero = reader.text("aero", Need::required).value_or("");
      },
      [](const BallModel& model) { validate(model.ball); });
}

std::optional<ModelFile<Head>> read_head(const Json& document, Findings& findings) {
  return read_model<Head>(
      document, ModelKind::head, findings,
      [](ObjectReader& reader, ModelFile<Head>& file) { read_head_numbers(reader, Need::required, file.model); },
      [](const Head& head) { validate(head); });
}

std::optional<ModelFile<Turf>> read_turf(const Json& document, Findings& findings) {
  return read_model<Turf>(
      document, ModelKind::turf, findings,
      [](ObjectReader& reader, ModelFile<Turf>& file) { read_numbers(reader, kTurfNumbers, file.model); },
      [](const Turf& turf) { validate(turf); });
}

std::optional<ModelFile<AeroModel>> read_aero(const Json& document, Findings& findings) {
  return read_model<AeroModel>(
      document, ModelKind::aero, findings,
      [](ObjectReader& reader, ModelFile<AeroModel>& file) {
        file.model.id = file.info.id;
        file.model.title = file.info.title;
        file.model.source = file.info.source;
        read_aero_numbers(reader, file.model);
      },
      [](const AeroModel& model) { validate(model); });
}

}  // namespace loftwright
