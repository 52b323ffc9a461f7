// At build time: the fields of the form out of the pupil's schema, so that form and file cannot part. A field:
//   path    where it stands in the document, without its unit
//   kind    number, interval, lofts, whole, choice, text, words, options, settings, correlations
//   parts, most: of options and settings, the quantities of one and how many there may be
//   units   the endings its key may have (none: the key has no unit), and which of them are usual
//   title, meaning, range (in `unit`), signed, choices, first
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

import { converted } from "./units.js";

// The trade's words where the key's are not.
const TITLES = {
  name: "Name", handed: "Plays", goal: "Goal", for_pupil: "Words for the pupil", notes: "Your own notes",
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
  "sleeve/range": "Loft it adds", "sleeve/face_per_loft": "Face turned for each degree", "sleeve/settings": "Its settings",
  "settings/loft": "Loft added", "settings/face": "Face opened", "club/setting": "Sleeve set to",
};
// What is said where the schema speaks to those who write files.
const MEANINGS = {
  "reach/attack": "how far down and up the pupil could come to strike, from -20 to 10 deg; today's attack lies within. From 2 deg below to 6 deg above it when not given",
  "club/head": "modern driver when not given",
  "sleeve/settings": "as the sleeve is marked, each with what it adds to the loft and how far it opens the face (closed: negative; left out: as it turns with the loft); all that the range allows when none is given",
  lofts_on_offer: "one by one, as 9 10.5 12, or a range, as 9 to 16; every loft from 8 to 16 deg when not given",
};
const ABOUT = { launch: "the ball just after impact; where no delivery is given, it is worked out from this" };
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

// Whose range a field has, where its own key names no row of the table of quantities.
const QUANTITIES = { lofts_on_offer: "loft", "prices/driver": "price", "prices/sleeve": "price", "prices/swing": "price", "settings/loft": "range", "settings/face": "range" };

// Whose range stands in words alone: it hangs on the pupil, or its ends are in different units.
const IN_WORDS = ["reach/attack", "prices/driver", "prices/sleeve", "prices/swing"];

// A number as the schema's words have it.
const plain = (value) => String(Number(value.toPrecision(6)));

// "club path, -30 to 30 deg; zero when not given": the range apart from the words, so that it can be shown in the unit chosen. The
// range is that of the tables; the words tell it in one of the field's units.
function meaningOf(said, kind, endings, range, units, name) {
  const words = (said.description ?? "").replace(/^\[low, high\](, | of )/, "");
  if (kind === "choice") return { meaning: /(^|[;,] )([^;,]* when not given)/.exec(words)?.[2].replaceAll('"', "") ?? words };
  if (endings.length === 0) return { meaning: words, range: said.minimum === undefined ? undefined : [said.minimum, said.maximum] };
  if (!range) return { meaning: words };
  for (const unit of endings) {
    const [low, high] = [range.low, range.high].map((end) => converted(units, end, range.unit, unit));
    const told = `${plain(low)} to ${plain(high)} ${units[unit].symbol}`;
    const found = ["; each ", ", each ", "; ", ", ", ""].map((before) => before + told).find((text) => words.includes(text));
    if (found) return { meaning: words.replace(found, "").replace(/^[;,] /, ""), range: [low, high], unit };
  }
  throw new Error(`${name}: its range, ${range.low} to ${range.high} ${range.unit}, is not that of "${words}"`);
}

const capital = (text) => text[0].toUpperCase() + text.slice(1);

// `tables`: units and quantities, as quantities.cpp writes them.
export function formOf(data, tables) {
  const schema = JSON.parse(readFileSync(join(data, "schema/pupil.schema.json")));
  const models = (folder) => readdirSync(join(data, folder)).filter((f) => f.endsWith(".json"))
    .map((f) => JSON.parse(readFileSync(join(data, folder, f)))).map(({ id }) => [id, id.replaceAll("-", " ")]);
  const choices = { ball: models("balls"), "club/head": models("heads"), "conditions/turf": models("turf") };

  const field = (path, key, said, units, within) => {
    const at = [...path, key];
    const name = at.join("/");
    const kind = name === "lofts_on_offer" ? "lofts" : name === "reach/options" ? "options" : choices[name] || said.enum ? "choice"
      : said.type === "array" ? (said.items.type !== "object" ? "interval" : { "spread/correlations": "correlations", "sleeve/settings": "settings" }[name]) : said.type === "integer" ? "whole" : said.type === "number" ? "number"
      : ["notes", "for_pupil"].includes(name) ? "words" : said.type === "string" ? "text" : undefined;
    if (!kind) return [];
    const quantity = tables.quantities[QUANTITIES[name] ?? key];
    const range = quantity?.[within ?? (path[0] === "spread" ? "spread" : "allowed")];
    if (units.length > 0 && !range && !IN_WORDS.includes(name)) throw new Error(`${name}: the table of quantities has no range for it`);
    const about = { ...meaningOf(said, kind, units, IN_WORDS.includes(name) ? undefined : range, tables.units, name), ...(MEANINGS[name] && { meaning: MEANINGS[name] }) };
    const usual = ["yards", "metres"].map((system) => [quantity?.shown[system], quantity?.typed, units[0]].find((unit) => units.includes(unit)));
    return [{
      path: at, kind, units, ...about, usual: units.length > 0 ? { yards: usual[0], metres: usual[1] } : undefined, title: TITLES[name] ?? capital(key.replaceAll("_", " ")),
      signed: (range?.low ?? about.range?.[0]) < 0, first: FIRST.indexOf(name),
      choices: choices[name] ?? said.enum?.map((word) => [word, word]),
      parts: partsOf[kind]?.(said.items).filter((f) => f.units.length > 0), most: said.maxItems,
      pairs: kind === "correlations" ? said.items.properties.between.items.enum.map((word) => [word, tables.quantities[word].title]) : undefined,
    }];
  };
  const partsOf = { options: (items) => fieldsOf(["delivery"], items, "change"), settings: (items) => fieldsOf(["settings"], items) };
  const fieldsOf = (path, object, within) => [
    ...Object.entries(object.patternProperties ?? {}).flatMap(([pattern, said]) => {
      const [, key, units] = /^\^(\w+)_\(([\w|]+)\)\$$/.exec(pattern);
      return field(path, key, said, units.split("|"), within);
    }),
    ...Object.entries(object.properties ?? {}).filter(([key]) => !(path.length === 0 && (NO_FIELD.includes(key) || SECTIONS[key])))
      .flatMap(([key, said]) => field(path, key, said, [], within)),
  ];
  const top = fieldsOf([], schema);
  const sections = Object.entries(SECTIONS).map(([key, title]) => ({
    key, title, about: title.toLowerCase() === schema.properties[key].description ? "" : capital(ABOUT[key] ?? schema.properties[key].description), fields: fieldsOf([key], schema.properties[key]),
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
