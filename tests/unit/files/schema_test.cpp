// The schemas are for editors, the reader is the judge: here they are held in step, key by key.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "findings.hpp"
#include "json.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/check_file.hpp"
#include "loftwright/files/pupil_file.hpp"

using namespace loftwright;
using namespace loftwright::test;
using nlohmann::json;

namespace {

using Keys = std::set<std::string>;

json schema(const std::string& name) { return parsed<json>(Catalogue::built_in("schema/" + name + ".schema.json")); }

// "club_speed_(mps|mph)" for a quantity, the key itself for the rest.
Keys keys_of(const json& object_schema) {
  Keys keys;
  const json plain = object_schema.value("properties", json::object());
  const json patterns = object_schema.value("patternProperties", json::object());
  for (const auto& [key, value] : plain.items()) keys.insert(key);
  for (const auto& [pattern, value] : patterns.items()) {
    REQUIRE(pattern.front() == '^');
    REQUIRE(pattern.back() == '$');
    keys.insert(pattern.substr(1, pattern.size() - 2));
  }
  return keys;
}

Findings checked(const json& document) {
  const ScratchFolder folder;
  return check_file(folder.write("file.json", document.dump()), Catalogue());
}

// The keys the reader knows in the object at `place`: it lists them for a key that resembles none.
Keys keys_read(json document, const std::string& place) {
  const std::string odd = "?????????????????????";
  document[json::json_pointer(place)][odd] = 0;
  const Findings findings = checked(document);
  INFO(document.dump() << "\n" << told(findings));
  Keys keys;
  for (const Finding& f : findings) {
    const std::string mark = "known here: ";
    const std::size_t at = f.message.find(mark);
    if (f.place != place + "/" + odd || at == std::string::npos) continue;
    std::istringstream list(f.message.substr(at + mark.size()));
    for (std::string key; std::getline(list, key, ',');) keys.insert(key.substr(key.find_first_not_of(' ')));
  }
  CHECK_FALSE(keys.empty());
  return keys;
}

void check_in_step(const json& object_schema, const json& document, const std::string& place) {
  INFO("object " << (place.empty() ? "/" : place) << " of " << document.at("format"));
  CHECK(keys_of(object_schema) == keys_read(document, place));
}

json built_in(const std::string& name) { return parsed<json>(Catalogue::built_in(name)); }

}  // namespace

TEST_CASE("the schema of a pupil names every key the reader knows, and no other") {
  const json pupil = schema("pupil");
  const json document = built_in("pupils/demo.json");
  check_in_step(pupil, document, "");
  for (const char* member :
       {"delivery", "launch", "spread", "club", "sleeve", "reach", "limits", "conditions", "arc", "prices"}) {
    check_in_step(pupil["properties"][member], document, std::string("/") + member);
  }
  check_in_step(
      pupil["patternProperties"]["^lofts_on_offer_(rad|deg)$"]["oneOf"][1],
      json(document).patch(parsed<json>(R"([{"op": "replace", "path": "/lofts_on_offer_deg", "value": {}}])")),
      "/lofts_on_offer_deg");
  check_in_step(schema("head")["$defs"]["numbers"], document, "/club/head");

  json listed = document;
  listed["shots"] = json::object();
  check_in_step(pupil["properties"]["shots"]["oneOf"][1], listed, "/shots");

  json tuned = document;
  tuned["tuned"]["correlations"] = json::array({json::object()});
  check_in_step(pupil["properties"]["tuned"], tuned, "/tuned");
  check_in_step(pupil["properties"]["tuned"]["properties"]["correlations"]["items"], tuned, "/tuned/correlations/0");

  json lists = document;
  lists["reach"]["options"] = lists["spread"]["correlations"] = json::array({json::object()});
  lists["sleeve"]["settings"] = json::array({json::object()});
  check_in_step(pupil["properties"]["sleeve"]["properties"]["settings"]["items"], lists, "/sleeve/settings/0");
  check_in_step(pupil["properties"]["reach"]["properties"]["options"]["items"], lists, "/reach/options/0");
  check_in_step(pupil["properties"]["spread"]["properties"]["correlations"]["items"], lists, "/spread/correlations/0");
}

TEST_CASE("the schemas of the models name every key the reader knows, and no other") {
  check_in_step(schema("ball"), built_in("balls/reference.json"), "");
  check_in_step(schema("turf"), built_in("turf/firm.json"), "");

  json head = schema("head");
  head["patternProperties"] = head["$defs"]["numbers"]["patternProperties"];
  head["properties"].update(head["$defs"]["numbers"]["properties"]);
  check_in_step(head, built_in("heads/modern-driver.json"), "");

  const json aero = schema("aero");
  Keys both = keys_read(built_in("aero/reference.json"), "");
  both.merge(keys_read(built_in("aero/example-table.json"), ""));
  CHECK(keys_of(aero) == both);
  check_in_step(aero["properties"]["valid"], built_in("aero/reference.json"), "/valid");
  check_in_step(aero["properties"]["crisis"], built_in("aero/ballistic-range.json"), "/crisis");
}

TEST_CASE("the schema of column words names every key the reader knows, and no other") {
  const json columns = schema("columns"), document = built_in("shots/columns.json");
  check_in_step(columns, document, "");
  check_in_step(columns["properties"]["readings"], document, "/readings");
  check_in_step(columns["$defs"]["reading"], document, "/readings/carry");
}

TEST_CASE("the schema of a book names every key the reader knows, and no other") {
  const json book = schema("book"), document = built_in("books/demo.json");
  check_in_step(book, document, "");
  const json& session = book["properties"]["sessions"]["items"];
  check_in_step(session, document, "/sessions/0");
  for (const char* part : {"club", "delivery", "reference"}) {
    check_in_step(session["properties"][part], document, std::string("/sessions/0/") + part);
  }
  check_in_step(session["properties"]["course"]["oneOf"][0], document, "/sessions/1/course");
  const json& shots = session["properties"]["shots"]["oneOf"][0];
  check_in_step(shots, document, "/sessions/3/shots");
  check_in_step(shots["properties"]["readings"]["items"], document, "/sessions/3/shots/readings/0");
}

TEST_CASE("the schemas of a promise and of an academy name every key the readers know, and no other") {
  json book = built_in("books/demo.json");
  book["sessions"][0]["promised"] = json::object();
  check_in_step(schema("book")["properties"]["sessions"]["items"]["properties"]["promised"]["oneOf"][0], book,
                "/sessions/0/promised");
  const json academy = schema("academy");
  Academy some = lessons({}, {}).academy;
  some.reached_share = some.follow;
  some.calibration.push_back({.pupil = "x", .session = 1, .reached_session = 2});
  const json document = parsed<json>(academy_text(some));
  check_in_step(academy, document, "");
  check_in_step(academy["properties"]["follow"], document, "/follow");
  check_in_step(academy["properties"]["speed_per_attack_mps_per_deg"], document, "/speed_per_attack_mps_per_deg");
  check_in_step(academy["properties"]["reached_share"]["oneOf"][0], document, "/reached_share");
  check_in_step(academy["properties"]["calibration"]["items"], document, "/calibration/0");
}

TEST_CASE("every schema asks for the version the reader reads") {
  for (const char* name : {"pupil", "ball", "head", "turf", "aero", "columns", "book", "academy"}) {
    const json s = schema(name);
    INFO(name);
    CHECK(s["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(s["properties"]["format"]["const"] ==
          std::string("loftwright-") + name + (name == std::string("turf") ? "/2" : "/1"));
  }
}
