// At build time: the fields of the form out of the pupil's schema, so that form and file cannot part. A field:
//   path    where it stands in the document, without its unit
//   kind    number, interval, lofts, whole, choice, text, words, options
//   units   the endings its key may have (none: the key has no unit)
//   title, meaning, range (in `unit`), signed, choices, first
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

// The trade's words where the key's are not.
const TITLES = {
  name: "Name", handed: "Plays", goal: "What is to grow", for_pupil: "Words for the pupil", notes: "Your own notes",
  "delivery/dynamic_loft": "Delivered loft", "delivery/toe": "Strike towards the toe", "delivery/high": "Strike up the face",
  "delivery/attack": "Attack angle", "delivery/path": "Club path", "delivery/face": "Face angle",
  "launch/launch": "Launch angle", "launch/azimuth": "Launch direction", "launch/tilt": "Spin axis",
  "spread/dynamic_loft": "Delivered loft", "spread/toe": "Towards the toe", "spread/high": "Up the face",
  "club/loft": "Loft of the driver in hand", "club/head": "Head", lofts_on_offer: "Lofts on offer",
  "reach/attack": "Attack within reach", "reach/follow": "Loft that follows the attack",
  "reach/speed_per_attack_deg": "Speed for each degree of attack", "reach/effort_per_attack_deg": "Effort for each degree of attack",
  "reach/options": "Other changes of technique",
  "limits/landing": "Descent angle", "limits/side": "Side at rest", "limits/carry": "A hazard to carry",
  "conditions/wind": "Wind speed", "conditions/wind_from": "Wind from", "conditions/wind_height": "Wind measured at a height of",
  measured_shots: "Drives measured", skill: "Usual scatter of a", worthwhile: "A change must gain", fairway: "Width of the fairway",
  "prices/driver": "Another driver", "prices/sleeve": "A turn of the sleeve", "prices/swing": "Another swing",
  "sleeve/range": "Loft it adds", "sleeve/face_per_loft": "Face turned for each degree",
};
// What is said where the schema speaks to those who write files.
const MEANINGS = {
  "reach/attack": "how far down and up the pupil could come to strike; today's attack lies within. From 2 deg below to 6 deg above it when not given",
  "club/head": "modern driver when not given",
  lofts_on_offer: "one by one, as 9 10.5 12, or a range, as 9 to 16; every loft from 8 to 16 deg when not given",
};
const SECTIONS = {
  delivery: "The delivery", launch: "Ball numbers", spread: "Scatter from drive to drive", club: "The driver in hand", sleeve: "The sleeve",
  reach: "What the pupil can change", limits: "Limits to keep", conditions: "Air, wind and turf", prices: "What each change must gain",
  arc: "The arc of the clubhead",
};
// A new pupil's dozen, in this order.
const FIRST = ["name", "handed", "goal", "delivery/club_speed", "delivery/attack", "delivery/dynamic_loft", "measured_shots", "skill",
               "club/loft", "lofts_on_offer", "reach/attack", "conditions/turf"];
// The other files of a pupil are the desk's own business, and tuning's block is written by tuning.
const NO_FIELD = ["format", "shots", "tuned"];

// The endings of keys for the units that the schema's words use.
const ENDINGS = { "m/s": "mps", deg: "deg", mm: "mm", m: "m", rpm: "rpm", hPa: "hpa", C: "c", "%": "pct" };
const number = (text) => Number(text.replaceAll(" ", ""));

// "club path, -30 to 30 deg; zero when not given": the range apart from the words, so that it can be shown in the unit chosen.
function meaningOf(said, kind, units) {
  const words = (said.description ?? "").replace(/^\[low, high\](, | of )/, "");
  if (kind === "choice") return { meaning: /(^|[;,] )([^;,]* when not given)/.exec(words)?.[2].replaceAll('"', "") ?? words };
  if (said.minimum !== undefined && units.length === 0) return { meaning: words, range: [said.minimum, said.maximum] };
  const found = /(^|[;,] )(each )?(-?\d[\d .]*) to (-?\d[\d .]*) ([\w/%]+)/.exec(words);
  const unit = found && ENDINGS[found[5]];
  if (!unit || !units.includes(unit)) return { meaning: words };
  const meaning = (words.slice(0, found.index) + words.slice(found.index + found[0].length)).replace(/^[;,] /, "");
  return { meaning, range: [number(found[3]), number(found[4])], unit };
}

const capital = (text) => text[0].toUpperCase() + text.slice(1);

export function formOf(data) {
  const schema = JSON.parse(readFileSync(join(data, "schema/pupil.schema.json")));
  const models = (folder) => readdirSync(join(data, folder)).filter((f) => f.endsWith(".json"))
    .map((f) => JSON.parse(readFileSync(join(data, folder, f)))).map(({ id }) => [id, id.replaceAll("-", " ")]);
  const choices = { ball: models("balls"), "club/head": models("heads"), "conditions/turf": models("turf") };

  const field = (path, key, said, units) => {
    const at = [...path, key];
    const name = at.join("/");
    const kind = name === "lofts_on_offer" ? "lofts" : name === "reach/options" ? "options" : choices[name] || said.enum ? "choice"
      : said.type === "array" ? (said.items.type === "object" ? undefined : "interval") : said.type === "integer" ? "whole" : said.type === "number" ? "number"
      : ["notes", "for_pupil"].includes(name) ? "words" : said.type === "string" ? "text" : undefined;
    if (!kind) return [];
    const about = { ...meaningOf(said, kind, units), ...(MEANINGS[name] && { meaning: MEANINGS[name] }) };
    if (units.length > 0 && !about.range && path[0] !== "prices") throw new Error(`${name}: no range found in "${said.description}"`);
    return [{
      path: at, kind, units, ...about, title: TITLES[name] ?? capital(key.replaceAll("_", " ")),
      signed: about.range?.[0] < 0, first: FIRST.indexOf(name),
      choices: choices[name] ?? said.enum?.map((word) => [word, word]),
      changes: kind === "options" ? fieldsOf([], said.items).filter((f) => !["name", "effort"].includes(f.path[0])) : undefined,
    }];
  };
  const fieldsOf = (path, object) => [
    ...Object.entries(object.patternProperties ?? {}).flatMap(([pattern, said]) => {
      const [, key, units] = /^\^(\w+)_\(([\w|]+)\)\$$/.exec(pattern);
      return field(path, key, said, units.split("|"));
    }),
    ...Object.entries(object.properties ?? {}).filter(([key]) => !(path.length === 0 && (NO_FIELD.includes(key) || SECTIONS[key])))
      .flatMap(([key, said]) => field(path, key, said, [])),
  ];
  const top = fieldsOf([], schema);
  const sections = Object.entries(SECTIONS).map(([key, title]) => ({
    key, title, about: title.toLowerCase() === schema.properties[key].description ? "" : schema.properties[key].description, fields: fieldsOf([key], schema.properties[key]),
  }));
  const everything = [...top, ...sections.flatMap((s) => s.fields)];
  return {
    first: everything.filter((f) => f.first >= 0).sort((a, b) => a.first - b.first),
    sections: [
      ...sections.map((s) => ({ ...s, fields: s.fields.filter((f) => f.first < 0) })),
      { key: "rest", title: "Ball, fairway, words", about: "", fields: top.filter((f) => f.first < 0) },
    ].filter((s) => s.fields.length > 0),
  };
}
