#include "loftwright/files/catalogue.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "files/embedded.hpp"
#include "files/json_reader.hpp"
#include "findings.hpp"
#include "folders.hpp"
#include "json.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr double kRounding = 4e-16;  // [relative] decimals in another unit, brought to SI by one or two products

bool same(double a, double b) { return std::abs(a - b) <= kRounding * std::abs(b); }

void check_same(const Ball& a, const Ball& b) {
  CHECK(same(a.mass, b.mass));
  CHECK(same(a.radius, b.radius));
  CHECK(same(a.inertia_factor, b.inertia_factor));
  CHECK(same(a.spin_decay, b.spin_decay));
}

void check_same(const Turf& a, const Turf& b) {
  CHECK(same(a.tilt, b.tilt));
  CHECK(a.restitution == b.restitution);
  CHECK(a.rolling == b.rolling);
  CHECK(a.grass == b.grass);
  CHECK(a.tilt_speed == b.tilt_speed);
  CHECK(a.rise == b.rise);
  CHECK(a.friction == b.friction);
  CHECK(a.width == b.width);
}

void check_same(const AeroModel& a, const AeroModel& b) {
  INFO("aero " << a.id);
  CHECK(a.id == b.id);
  const auto& x = std::get<AeroCurve>(a.form);
  const auto& y = std::get<AeroCurve>(b.form);
  CHECK(x.drag == y.drag);
  CHECK(x.drag_spin == y.drag_spin);
  CHECK(x.drag_reynolds == y.drag_reynolds);
  CHECK(x.drag_wave == y.drag_wave);
  CHECK(x.lift == y.lift);
  CHECK(x.lift_spin == y.lift_spin);
  CHECK(x.lift_power == y.lift_power);
  CHECK(x.lift_exponent == y.lift_exponent);
  REQUIRE(x.crisis.has_value() == y.crisis.has_value());
  if (x.crisis) {
    CHECK(x.crisis->reynolds == y.crisis->reynolds);
    CHECK(x.crisis->width == y.crisis->width);
    CHECK(x.crisis->drag == y.crisis->drag);
    CHECK(x.crisis->lift_loss == y.crisis->lift_loss);
  }
  CHECK(a.reynolds_low == b.reynolds_low);
  CHECK(a.reynolds_high == b.reynolds_high);
  CHECK(a.spin_ratio_low == b.spin_ratio_low);
  CHECK(a.spin_ratio_high == b.spin_ratio_high);
}

const std::string kTurfText = R"~({"format": "loftwright-turf/2", "id": "links", "title": "Links in August (invented)",
  "source": "invented", "status": "estimate", "note": "for a test",
  "tilt_deg": 16, "restitution": 0.65, "friction": 0.4, "rolling": 0.08, "grass_per_m": 0.008})~";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

Findings findings_of(const std::function<void()>& load) {
  try {
    load();
  } catch (const FileError& e) {
    return e.findings;
  }
  FAIL("no FileError");
  return {};
}

}  // namespace

TEST_CASE("every model built in loads, is described, and has a known status") {
  const Catalogue catalogue;
  std::size_t count = 0;
  for (const ModelKind kind : {ModelKind::ball, ModelKind::head, ModelKind::turf, ModelKind::aero}) {
    for (const ModelInfo& info : catalogue.list(kind)) {
      INFO("model " << info.id);
      ++count;
      CHECK_FALSE(info.title.empty());
      CHECK_FALSE(info.source.empty());
      CHECK_FALSE(info.note.empty());
      CHECK(std::set<std::string>{"published", "rules", "memory", "estimate"}.contains(info.status));
      if (kind == ModelKind::ball) CHECK_NOTHROW(catalogue.ball(info.id));
      if (kind == ModelKind::head) CHECK_NOTHROW(catalogue.head(info.id));
      if (kind == ModelKind::turf) CHECK_NOTHROW(catalogue.turf(info.id));
      if (kind == ModelKind::aero) CHECK_NOTHROW(catalogue.aero(info.id));
    }
  }
  CHECK(count == 15);
}

TEST_CASE("what is built in is what lies in data/") {
  for (std::size_t i = 0; i < kEmbeddedFilesCount; ++i) {
    INFO(kEmbeddedFiles[i].name);
    CHECK(read_text(std::filesystem::path(LOFTWRIGHT_SOURCE_DIR) / "data" / kEmbeddedFiles[i].name) ==
          kEmbeddedFiles[i].text);
  }
  CHECK(Catalogue::built_in("turf/firm.json").starts_with("{"));
  CHECK_THROWS_AS(Catalogue::built_in("turf/moon.json"), std::logic_error);
}

TEST_CASE("the data hold the model's own numbers") {
  const Catalogue catalogue;
  const AeroModel aeros[] = {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()};
  for (const AeroModel& aero : aeros) {
    check_same(catalogue.aero(aero.id), aero);
    const auto [ball, own] = catalogue.ball(aero.id);
    check_same(ball, Ball{});
    CHECK(own.id == aero.id);
  }
  check_same(catalogue.turf("firm"), firm());
  check_same(catalogue.turf("medium"), medium());
  check_same(catalogue.turf("soft"), soft());

  const Head head = catalogue.head("modern-driver"), own;
  CHECK(same(head.mass, own.mass));
  CHECK(same(head.inertia_normal, own.inertia_normal));
  CHECK(same(head.inertia_up, own.inertia_up));
  CHECK(same(head.inertia_heel_toe, own.inertia_heel_toe));
  CHECK(same(head.depth, own.depth));
  CHECK(same(head.bulge, own.bulge));
  CHECK(same(head.roll, own.roll));
  CHECK(head.restitution == own.restitution);
  CHECK(head.restitution_speed == own.restitution_speed);
  CHECK(head.restitution_slope == own.restitution_slope);
  CHECK(head.tangential_restitution == own.tangential_restitution);
  CHECK(head.friction == own.friction);
  CHECK(head.width == own.width);
}

// MDPI Proceedings 49(1) 47, 2020, table 1.
TEST_CASE("the measured head holds the published numbers") {
  const Head head = Catalogue().head("measured-2020");
  CHECK(same(head.mass, 0.204));
  CHECK(same(head.depth, 0.042));
  CHECK(same(head.inertia_normal, 2843e-7));
  CHECK(same(head.inertia_up, 5679e-7));
  CHECK(same(head.inertia_heel_toe, 4085e-7));
  CHECK(same(head.bulge, 0.305));
  CHECK(head.restitution == 0.83);
  CHECK(head.width == 0.0);
}

TEST_CASE("the example table is the reference formula at its points, and flies like it") {
  const AeroModel table = Catalogue().aero("example-table");
  const auto& points = std::get<AeroTable>(table.form);
  const AeroCurve curve = std::get<AeroCurve>(reference_aero().form);
  CHECK(table.reynolds_low == 4e4);
  CHECK(table.spin_ratio_high == 0.5);
  for (const double re : points.reynolds) {
    for (const double s : points.spin_ratio) {
      INFO("Re " << re << ", S " << s);
      CHECK(std::abs(points.at(re, s).drag - curve.at(re, s).drag) <= 0.5e-4 + 1e-12);  // four decimals are written
      CHECK(std::abs(points.at(re, s).lift - curve.at(re, s).lift) <= 0.5e-4 + 1e-12);
    }
  }
  Setting setting = default_setting();
  const Launch launch{55.0, 14.0 * kDeg, 0.0, 2600.0 * kRpm, 0.0};
  const double by_curve = drive_from(launch, setting).flight.carry;
  setting.aero = table;
  const Flight by_table = drive_from(launch, setting).flight;
  INFO("carry by curve " << by_curve << " m, by table " << by_table.carry << " m");
  // Rounding to 4 decimals and interpolation (at most 7.4e-4 of Cl, at S = 0.027) moved the carry of 36 launches of 45
  // to 75 m/s by 0.04 m at most.
  CHECK(std::abs(by_table.carry - by_curve) < 0.05);
  CHECK_FALSE(by_table.outside_aero_range);
}

TEST_CASE("an unknown id names the nearest and lists all") {
  const Catalogue catalogue;
  CHECK_THROWS_WITH(catalogue.ball("referense"),
                    "there is no ball \"referense\"; the nearest is \"reference\"; there are: ballistic-range, "
                    "example-table, linear, reference, smits-smith-1994; or name a file that ends in .json");
  CHECK_THROWS_WITH(catalogue.turf("frim"),
                    "there is no turf \"frim\"; the nearest is \"firm\"; there are: firm, medium, soft; or name a file "
                    "that ends in .json");
  CHECK_THROWS_AS(catalogue.head("../heads/modern-driver"), InputError);
  CHECK_THROWS_AS(catalogue.head(""), InputError);
  CHECK_THROWS_WITH(catalogue.head("no/such.json"), "no/such.json: there is no such file");
}

TEST_CASE("an overlay folder adds models and stands before those built in") {
  const ScratchFolder folder;
  folder.write("turf/links.json", kTurfText);
  folder.write("turf/firm.json", replaced(replaced(kTurfText, "links", "firm"), "0.08", "0.5"));
  const Catalogue catalogue(folder.path());
  CHECK(catalogue.turf("links").rolling == 0.08);
  CHECK(catalogue.turf("firm").rolling == 0.5);
  CHECK(catalogue.turf("soft").rolling == soft().rolling);
  CHECK(catalogue.list(ModelKind::turf).size() == Catalogue().list(ModelKind::turf).size() + 1);
  CHECK(catalogue.list(ModelKind::head).size() == Catalogue().list(ModelKind::head).size());
  CHECK_THROWS_WITH(Catalogue(folder.path() / "turf/links.json"),
                    (folder.path() / "turf/links.json").string() + " is not a folder of data files");

  folder.write("turf/renamed.json", kTurfText);
  const Findings findings = findings_of([&] { catalogue.turf("renamed"); });
  INFO(told(findings));
  CHECK(tells(findings, Severity::error, "/id", "is \"links\", but the file's name says \"renamed\""));
}

TEST_CASE("a ball by path finds the table it names beside it") {
  const ScratchFolder folder;
  folder.write("mine/table.json", replaced(std::string(Catalogue::built_in("aero/example-table.json")),
                                           "\"example-table\"", "\"my-table\""));
  const std::string ball = replaced(std::string(Catalogue::built_in("balls/example-table.json")),
                                    "\"aero\": \"example-table\"", "\"aero\": \"table.json\"");
  const std::string file = folder.write("mine/ball.json", ball).string();
  CHECK(Catalogue().ball(file).aero.id == "my-table");

  const std::string lost = folder.write("lost.json", replaced(ball, "table.json", "gone")).string();
  const Findings findings = findings_of([&] { Catalogue().ball(lost); });
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].place == "/aero");
  CHECK(findings[0].message.starts_with("there is no aerodynamic model \"gone\"; the nearest is"));
}

TEST_CASE("a model file's mistakes are all told, with their places") {
  const ScratchFolder folder;
  const auto turf = [&](const std::string& from, const std::string& to) {
    const std::string file = folder.write("turf.json", replaced(kTurfText, from, to)).string();
    return findings_of([&] { Catalogue().turf(file); });
  };
  CHECK(tells(turf("\"friction\": 0.4", "\"friction\": 4"), Severity::error, "/friction",
              "4 is out of range; allowed: 0.05 to 1"));
  CHECK(tells(turf("\"rolling\": 0.08, ", ""), Severity::error, "", "rolling is missing"));
  CHECK(tells(turf("friction", "fricton"), Severity::error, "/fricton",
              "unknown key \"fricton\"; the nearest known key is \"friction\""));
  CHECK(tells(turf("\"estimate\"", "\"guess\""), Severity::error, "/status",
              "\"guess\" is not one of the words allowed here: published, rules, memory or estimate"));
  CHECK(tells(turf("\"links\"", "\"My Links\""), Severity::error, "/id",
              "\"My Links\" is no id: small letters, digits and hyphens are allowed"));
  CHECK(tells(turf("\"invented\"", "\"\""), Severity::error, "/source", "is empty"));
  CHECK(tells(
      turf("turf/2", "turf/3"), Severity::error, "/format",
      "\"loftwright-turf/3\" is newer than this program can read (\"loftwright-turf/2\"): use a newer loftwright"));
  CHECK(tells(turf("turf/2", "turf/1"), Severity::error, "/format",
              "\"loftwright-turf/1\" is an older format that is read no longer; \"loftwright-turf/2\" is expected "
              "(docs/CHANGES.md says what moved)"));

  const auto aero = [&](const std::string& from, const std::string& to) {
    const std::string text(Catalogue::built_in("aero/example-table.json"));
    const std::string file = folder.write("aero.json", replaced(text, from, to)).string();
    return findings_of([&] { Catalogue().aero(file); });
  };
  CHECK(tells(aero("[4e4, 7e4, 1e5", "[4e4, 1e5, 7e4"), Severity::error, "",
              "aero table: reynolds[2] = 70000 does not rise above 100000 before it"));
  CHECK(tells(aero("4e4, 7e4, ", "4e4, "), Severity::error, "/drag",
              "a list of 5 rows is expected, one for each reynolds"));
  CHECK(tells(aero("0.2150, ", ""), Severity::error, "/drag/0",
              "has 8 numbers; 9 are expected, one for each spin_ratio"));
  CHECK(tells(aero("0.2150", "-0.2150"), Severity::error, "/drag/0/0", "-0.215 is out of range; allowed: 0.001 to 2"));
  CHECK(tells(aero("\"form\"", "\"valid\": {\"reynolds\": [1e4, 2e5], \"spin_ratio\": [0.1, 0.2]}, \"form\""),
              Severity::error, "/valid", "reaches beyond the table"));
  CHECK(tells(aero("\"table\"", "\"spline\""), Severity::error, "/form",
              "\"spline\" is not one of the words allowed here: curve or table"));

  const auto crisis = [&](const std::string& from, const std::string& to) {
    const std::string text(Catalogue::built_in("aero/ballistic-range.json"));
    const std::string file = folder.write("crisis.json", replaced(text, from, to)).string();
    return findings_of([&] { Catalogue().aero(file); });
  };
  CHECK(tells(crisis("\"width\": 4.5e3, ", ""), Severity::error, "/crisis", "width is missing"));
  CHECK(tells(crisis("4.5e3", "45"), Severity::error, "/crisis/width", "45 is out of range; allowed: 100 to 1000000"));
  CHECK(tells(crisis("\"width\"", "\"widht\""), Severity::error, "/crisis/widht",
              "unknown key \"widht\"; the nearest known key is \"width\""));
}

namespace {

template <class S>
bool allows(S model, double S::*member, double value) {
  model.*member = value;
  try {
    validate(model);
    return true;
  } catch (const InputError&) {
    return false;
  }
}

// One number of a model: the key of the built-in file, the key in SI, the member and its range in SI.
template <class S>
struct Bounds {
  std::string given, key;
  double S::*member;
  double low, high;
};

template <class S, class Load>
void check_bounds(const std::string& model, const std::vector<Bounds<S>>& all, const Load& load) {
  const ScratchFolder folder;
  for (const Bounds<S>& b : all) {
    Json document = parsed<Json>(Catalogue::built_in(model));
    REQUIRE(document.erase(b.given) == 1);
    const double step = 1e-6 * (b.high - b.low);
    for (const double value : {b.low, b.high, b.low - step, b.high + step}) {
      INFO(model << ": " << b.key << " = " << value);
      const bool inside = value >= b.low && value <= b.high;
      document[b.key] = value;
      const std::string file = folder.write("model.json", document.dump()).string();
      if (inside) {
        CHECK_NOTHROW(load(file));
      } else {
        const Findings findings = findings_of([&] { load(file); });
        INFO(told(findings));
        CHECK(findings.size() == 1);
        CHECK(findings.front().place == "/" + b.key);
      }
      CHECK(allows(S{}, b.member, value) == inside);
    }
  }
}

}  // namespace

// The reader tells a range with its place and in the unit typed, validate() guards the struct: they must agree.
TEST_CASE("the readers of models allow exactly what the structs allow") {
  const Catalogue catalogue;
  check_bounds<Ball>("balls/reference.json",
                     {{"mass_g", "mass_kg", &Ball::mass, 0.02, 0.06},
                      {"inertia_factor", "inertia_factor", &Ball::inertia_factor, 0.3, 0.5},
                      {"spin_decay", "spin_decay", &Ball::spin_decay, 0.0, 1e-3}},
                     [&](const std::string& file) { catalogue.ball(file); });
  check_bounds<Head>("heads/modern-driver.json",
                     {{"mass_g", "mass_kg", &Head::mass, 0.1, 0.4},
                      {"inertia_normal_gcm2", "inertia_normal_kgm2", &Head::inertia_normal, 5e-5, 2e-3},
                      {"inertia_up_gcm2", "inertia_up_kgm2", &Head::inertia_up, 5e-5, 2e-3},
                      {"inertia_heel_toe_gcm2", "inertia_heel_toe_kgm2", &Head::inertia_heel_toe, 5e-5, 2e-3},
                      {"depth_mm", "depth_m", &Head::depth, 0.0, 0.08},
                      {"bulge_mm", "bulge_m", &Head::bulge, 0.1, 10.0},
                      {"roll_mm", "roll_m", &Head::roll, 0.1, 10.0},
                      {"restitution", "restitution", &Head::restitution, 0.5, 0.9},
                      {"restitution_speed_mps", "restitution_speed_mps", &Head::restitution_speed, 10.0, 80.0},
                      {"restitution_slope_s_per_m", "restitution_slope_s_per_m", &Head::restitution_slope, 0.0, 0.01},
                      {"tangential_restitution", "tangential_restitution", &Head::tangential_restitution, -1.0, 1.0},
                      {"friction", "friction", &Head::friction, 0.05, 2.0},
                      {"width", "width", &Head::width, 0.0, 3.0}},
                     [&](const std::string& file) { catalogue.head(file); });
  check_bounds<Turf>("turf/firm.json",
                     {{"tilt_deg", "tilt_rad", &Turf::tilt, 0.0, 40.0 * kDeg},
                      {"restitution", "restitution", &Turf::restitution, 0.05, 0.95},
                      {"rolling", "rolling", &Turf::rolling, 0.02, 1.0},
                      {"grass_per_m", "grass_per_m", &Turf::grass, 0.0005, 0.2}},
                     [&](const std::string& file) { catalogue.turf(file); });
}
