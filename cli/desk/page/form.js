// The form: every field of form data (fields.mjs), the findings of `check` beside them. What is typed goes into the document at
// once, as a number where it is one, else as the text it is, and `check` judges it.
import { button, fill, h, newId, picker, signButton } from "./dom.js";
import { PLACES } from "./models.js";
import { findingWords } from "./words.js";

// The range in the unit chosen, to three digits and inwards, so that what is shown is allowed, as `check` has it.
function rangeIn(numbers, field, unit) {
  if (!field.range) return "";
  const bound = (value, round) => {
    if (!unit || unit === field.unit) return value;
    const here = numbers.converted(value, field.unit, unit);
    const step = here === 0 ? 1 : 10 ** (Math.floor(Math.log10(Math.abs(here))) - 2);
    return Number((round(here / step + (round === Math.ceil ? -1e-6 : 1e-6)) * step).toPrecision(5));
  };
  return `${bound(field.range[0], Math.ceil)} to ${bound(field.range[1], Math.floor)} ${numbers.symbol(unit)}`.trim();
}

// Decimal comma or point, a minus of any length; both signs together are no number, and go on as text.
export function numberOr(text) {
  const plain = text.trim().replace(/^[\u2212\u2013]/, "-");
  return /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(plain) ? Number(plain.replace(",", ".")) : text.trim();
}

const keyIn = (object, field) => {
  const name = field.path.at(-1);
  if (field.units.length === 0) return name;
  return field.units.map((unit) => `${name}_${unit}`).find((key) => object && key in object);
};
const holder = (document, field) => (field.path.length === 1 ? document : document[field.path[0]]);
export const valueOf = (document, field) => holder(document, field)?.[keyIn(holder(document, field), field)];

function put(document, field, unit, value) {
  const within = field.path.length === 1 ? document : (document[field.path[0]] ??= {});
  const old = keyIn(within, field);
  const key = unit ? `${field.path.at(-1)}_${unit}` : field.path.at(-1);
  if (old && old !== key) delete within[old];
  if (value === undefined) delete within[key];
  else within[key] = value;
  if (within !== document && Object.keys(within).length === 0) delete document[field.path[0]];
}

const empty = (text) => text.trim() === "";
const textOf = (value) => (value === undefined || value === null ? "" : String(value));

// A list of lofts, or the two ends of a range, as one types them: "9 10.5 12", "9 to 16".
export function loftsIn(text) {
  if (empty(text)) return undefined;
  const range = /^\s*(\S+)\s*(?:to|\u2013|\.\.)\s*(\S+)\s*$/.exec(text);
  if (range) return { from: numberOr(range[1]), to: numberOr(range[2]) };
  return text.trim().split(/[;\s]+|,\s+/).filter(Boolean).map((part) => numberOr(part.replace(/,$/, "")));
}
// What was read of it, told beside the field; and where blanks may be missing between lofts, or no range can be taken, how several are
// typed.
function loftsRead(text, ranges) {
  const read = loftsIn(text);
  if (read === undefined) return { words: "", doubt: "" };
  const lofts = Array.isArray(read) ? read : [];
  const number = (one) => typeof one === "number";
  const words = lofts.length > 0 && lofts.every(number) ? `Read as ${lofts.join(", ")}.` : ranges && number(read.from) && number(read.to) ? `Read as ${read.from} to ${read.to}.` : "";
  const joined = text.trim().split(/\s+/).some((part) => /,.*,|,\d\d/.test(part.replace(/,$/, "")));
  const unclear = joined || (!ranges && !Array.isArray(read));
  return { words, doubt: unclear ? `Several lofts are typed with blanks between, as 9 10.5 12${ranges ? "; a range as 9 to 12" : ""}.` : "" };
}
// The two lines below such a field, told anew at every key.
export function tellingLofts(input, { ranges = true, ...properties } = {}) {
  const words = h("span"), doubt = h("span", { class: "finding warning" });
  const tell = () => {
    const read = loftsRead(input.value, ranges);
    words.textContent = read.words;
    doubt.textContent = read.doubt;
  };
  input.addEventListener("input", tell);
  tell();
  return h("p", { class: "about read", ...properties }, words, " ", doubt);
}
const loftsText = (value) => (Array.isArray(value) ? value.join("  ") : value && typeof value === "object" ? `${textOf(value.from)} to ${textOf(value.to)}` : textOf(value));

// `numbers`: see units.js; `system`: yards or metres.
// `models`: { at(place), take(file) }, see models.js; `take` draws the form anew.
export function makeForm(data, { document, numbers, system, models, changed }) {
  const places = [];  // { begins, show(findings) }
  const edit = (field, unit, value) => { put(document(), field, unit, value); changed(); };

  function numberEntry(title, field, value, onvalue, extra = {}) {
    const id = newId("field");
    const input = h("input", { type: "text", inputmode: "decimal", autocomplete: "off", id, value: textOf(value), ...extra,
                               oninput: () => onvalue(empty(input.value) ? undefined : numberOr(input.value)) });
    return { id, input, parts: [field.signed && signButton(input, title), input] };
  }

  function unitChoice(title, field, unit, onunit) {
    if (field.units.length === 0) return undefined;
    if (field.units.length === 1) return h("span", { class: "unit" }, numbers.symbol(field.units[0]));
    return h("select", { class: "unit", "aria-label": `Unit: ${title}`, onchange: (event) => onunit(event.target.value) },
             field.units.map((one) => h("option", { value: one, selected: one === unit }, numbers.symbol(one))));
  }

  function fieldOf(field) {
    const value = valueOf(document(), field);
    const held = field.units.length > 0 && keyIn(holder(document(), field), field);
    let unit = held ? held.slice(field.path.at(-1).length + 1) : field.usual?.[system()];
    const about = newId("about");
    const finding = newId("finding");
    const read = newId("read");
    const described = { "aria-describedby": `${about} ${field.kind === "lofts" ? `${read} ` : ""}${finding}` };
    const label = newId("label");
    const aboutBox = h("p", { class: "about", id: about });
    const tellAbout = () => { aboutBox.textContent = [rangeIn(numbers, field, unit), field.meaning].filter(Boolean).join("; "); };
    tellAbout();
    const chooseUnit = (chosen) => { unit = chosen; tellAbout(); edit(field, unit, valueOf(document(), field)); };
    let entry;
    let readBox;
    let inputs = [];
    if (field.kind === "number" || field.kind === "whole") {
      const one = numberEntry(field.title, field, value, (typed) => edit(field, unit, typed), described);
      inputs = [one.input];
      entry = [one.parts, unitChoice(field.title, field, unit, chooseUnit)];
    } else if (field.kind === "interval") {
      const ends = Array.isArray(value) ? value : [undefined, undefined];
      const send = () => {
        const typed = inputs.map((input) => (empty(input.value) ? null : numberOr(input.value)));
        edit(field, unit, typed.every((end) => end === null) ? undefined : typed);
      };
      const pair = ["from", "to"].map((word, i) => numberEntry(`${field.title}, ${word}`, field, ends[i], send,
                                                               { ...described, "aria-label": `${field.title}, ${word}` }));
      inputs = pair.map((one) => one.input);
      entry = [pair[0].parts, h("span", { class: "to" }, "to"), pair[1].parts,
               unitChoice(field.title, field, unit, chooseUnit)];
    } else if (field.kind === "lofts") {
      const input = h("input", { type: "text", autocomplete: "off", value: loftsText(value), ...described, oninput: () => edit(field, unit, loftsIn(input.value)) });
      inputs = [input];
      entry = [input, unitChoice(field.title, field, unit, chooseUnit)];
      readBox = tellingLofts(input, { id: read });
    } else if (field.kind === "choice") {
      const place = field.path.join("/");
      const files = Object.values(PLACES).includes(place);
      const choices = [...field.choices, ...(files ? models.at(place).map((name) => [name, `${name}, your own`]) : [])];
      const own = value !== undefined && !choices.some(([id]) => id === value);
      const select = h("select", { ...described, onchange: () => {
        if (select.value !== "own") edit(field, undefined, select.value === "" ? undefined : select.value);
      } }, h("option", { value: "" }, "not given"), choices.map(([id, words]) => h("option", { value: id, selected: id === value }, words)),
      own && h("option", { value: "own", selected: true }, typeof value === "string" ? value : "numbers of its own"));
      inputs = [select];
      entry = [select, files && picker({ label: "A file", accept: ".json,application/json", onfiles: ([file]) => models.take(file, field.title) })];
    } else if (field.kind === "text" || field.kind === "words") {
      const input = h(field.kind === "text" ? "input" : "textarea", { ...described, type: field.kind === "text" ? "text" : undefined, autocomplete: "off", oninput: () => edit(field, undefined, input.value === "" ? undefined : input.value) });
      input.value = textOf(value);
      inputs = [input];
      entry = [input];
    } else {
      return { options: optionsOf, settings: settingsOf, correlations: correlationsOf }[field.kind](field);
    }
    for (const input of inputs) if (!input.id) input.id = newId("field");
    const says = h("p", { class: "finding", id: finding });
    const box = h("div", { class: `field ${field.kind}`, role: field.kind === "interval" ? "group" : undefined, "aria-labelledby": field.kind === "interval" ? label : undefined },
                  h("label", { id: label, for: inputs[0].id }, field.title), h("div", { class: "entry" }, entry),
                  readBox, aboutBox, says);
    places.push({ field, box, show: (found) => {
      const missing = inputs.every((input) => empty(input.value));
      const half = found.length > 0 && found.every((one) => /\bis null\b/.test(one.message));  // one end of two
      const worst = found.some((one) => one.severity === "error") ? (missing || half ? "needed" : "error") : found.length ? "warning" : "";
      box.dataset.found = worst;
      says.textContent = half ? "Needed: the other end too." : worst === "needed" ? "Needed." : found.map((one) => one.message).join(" ");
      for (const input of inputs) input.setAttribute("aria-invalid", worst === "error");
      return worst;
    } });
    return box;
  }

  // A list of small forms, as further changes of technique: each is drawn by `one(item, set)` as fields of `small`, and a new one
  // begins as `fresh`. A finding stands beside the field it is of, or below them all.
  function listOf(field, { words, most, fresh, one }) {
    const section = () => document()[field.path[0]] ??= {};
    const key = field.path[1];
    const list = h("div", { class: "options" });
    const finding = h("p", { class: "finding" });
    let rows = [];  // of each item its fields
    const draw = () => {
      const there = document()[field.path[0]]?.[key] ?? [];
      const out = (i) => {
        there.splice(i, 1);
        if (there.length === 0) delete section()[key];
        if (Object.keys(section()).length === 0) delete document()[field.path[0]];
        changed();
        draw();
      };
      rows = there.map((item) => {
        const set = (name, value) => { if (value === undefined) delete item[name]; else item[name] = value; changed(); };
        return one(item, set);
      });
      list.replaceChildren(...rows.map((fields, i) => h("fieldset", { class: `option ${field.kind}` }, h("legend", {}, `${words.each} ${i + 1}`), fields.map(({ root }) => root),
        button(words.remove, () => out(i), { "aria-label": `${words.remove}: ${i + 1}` }))),
        there.length < most ? button(words.add, () => {
          (section()[key] ??= []).push(fresh());
          changed();
          draw();
          list.querySelector(".option:last-of-type :is(input, select)")?.focus();
        }) : "");
    };
    draw();
    const box = h("div", { class: "field wide-field" }, h("h3", {}, field.title), h("p", { class: "about" }, field.meaning), list, finding);
    places.push({ field, box, show: (found) => {
      const left = new Set(found);
      rows.forEach((fields, i) => fields.forEach((part) => {
        const here = found.filter(({ place, message }) => place.endsWith(`/${key}/${i}/${part.key}`) || (place.endsWith(`/${key}/${i}`) && message.startsWith(`${part.named} `)));
        here.forEach((each) => left.delete(each));
        part.show(here);
      }));
      finding.textContent = [...left].map((each) => each.message).join(" ");
      return found.some((one) => one.severity === "error") ? "error" : "";
    } });
    return box;
  }
  // { key, named, root, show(findings) }; `key` as the item has it, `named` as `check` names it where it is missing.
  function small(key, title, input, parts = input, named = key) {
    const says = h("p", { class: "finding", id: newId("finding") });
    input.setAttribute("aria-describedby", says.id);
    const root = h("div", { class: "field" }, h("label", { for: input.id }, title), h("div", { class: "entry" }, parts), says);
    return { key, named, root, show(found) {
      const wrong = found.some((one) => one.severity === "error");
      const needed = wrong && empty(input.value);
      root.dataset.found = needed ? "needed" : wrong ? "error" : found.length ? "warning" : "";
      says.textContent = needed ? "Needed." : found.map((one) => one.message).join(" ");
      input.setAttribute("aria-invalid", wrong && !needed);
    } };
  }
  function smallNumber(key, title, field, value, onvalue, named = key) {
    const made = numberEntry(title, field, value, onvalue);
    return small(key, title, made.input, made.parts, named);
  }
  function smallText(key, title, item, set) {
    const input = h("input", { type: "text", autocomplete: "off", value: textOf(item[key]), id: newId("field"), oninput: () => set(key, input.value) });
    return small(key, title, input);
  }
  // A quantity of an item, in the unit that its key has, or in the usual one.
  function smallQuantity(field, item, set, titled = (unit) => `${field.title}, ${numbers.symbol(unit)}`) {
    const [name] = field.path.slice(-1);
    const key = keyIn(item, field) ?? `${name}_${field.usual[system()]}`;
    const unit = key.slice(name.length + 1);
    return smallNumber(key, titled(unit), field, item[key], (typed) => set(key, typed), name);
  }

  const optionsOf = (field) => listOf(field, {
    words: { each: "Change", add: "Add a change of technique", remove: "Take this change out" }, most: field.most, fresh: () => ({ name: "", effort: 1 }),
    one: (option, set) => [smallText("name", "Name", option, set), smallNumber("effort", "Effort, 0 to 100", { signed: false }, option.effort, (typed) => set("effort", typed)),
                           ...field.parts.map((part) => smallQuantity(part, option, set, (unit) => `${part.title} added, ${rangeIn(numbers, part, unit)}`))],
  });

  const settingsOf = (field) => listOf(field, {
    words: { each: "Setting", add: "Add a setting", remove: "Take this setting out" }, most: field.most, fresh: () => ({ name: "" }),
    one: (setting, set) => [smallText("name", "As it is marked", setting, set), ...field.parts.map((part) => smallQuantity(part, setting, set))],
  });

  const correlationsOf = (field) => listOf(field, {
    words: { each: "Pair", add: "Add a pair", remove: "Take this pair out" }, most: field.most ?? 21, fresh: () => ({ between: ["face", "path"], value: 0.5 }),
    one(pair, set) {
      const choose = (title, i) => {
        const select = h("select", { id: newId("field"), onchange: () => { pair.between[i] = select.value; set("between", pair.between); } },
                         field.pairs.map(([key, words]) => h("option", { value: key, selected: pair.between[i] === key }, words)));
        return small(`between/${i}`, title, select);
      };
      return [choose("One", 0), choose("The other", 1), smallNumber("value", "Correlation, -0.99 to 0.99", { signed: true }, pair.value, (typed) => set("value", typed))];
    },
  });

  const fromList = (field) => ["delivery", "launch", "measured_shots"].includes(field.path[0]);
  const taken = Boolean(document().shots);
  const kept = (field) => !(taken && fromList(field));
  const first = h("div", { class: "fields" }, data.first.filter(kept).map(fieldOf));
  const folded = data.sections.map((section) => {
    const fields = section.fields.filter(kept);
    if (fields.length === 0) return undefined;
    const filled = fields.filter((field) => valueOf(document(), field) !== undefined).length;
    const mark = h("small", { class: "finding error" });
    const fold = h("details", { class: "fold" }, h("summary", {}, section.title, filled > 0 && h("small", {}, ` ${filled} given`), mark),
                   section.about && h("p", { class: "about" }, section.about), h("div", { class: "fields" }, fields.map(fieldOf)));
    return { fold, mark };
  }).filter(Boolean);
  const rest = h("div", { class: "found-rest" });

  // Opens the fold that a field lies in, and puts the coach there.
  function lead(box) {
    const fold = box.closest("details");
    if (fold) fold.open = true;
    box.scrollIntoView({ block: "center" });
    (box.querySelector("[aria-invalid=true]") ?? box.querySelector("input, select, textarea"))?.focus({ preventScroll: true });
  }

  // A finding goes to the field its place begins with, or whose key it names as missing; what is left stands at the end. Answers what
  // keeps the pupil from an answer, { words, lead }, or nothing.
  function showFindings(findings) {
    const left = new Set(findings);
    const wrong = [];  // { field, box, worst, found }
    for (const { field, box, show } of places) {
      const at = `/${field.path.join("/")}`;
      const key = field.path.at(-1);
      const section = field.path.length > 1 ? `/${field.path[0]}` : "";
      const found = findings.filter((one) => {
        const rest = one.place.startsWith(at) ? one.place.slice(at.length) : undefined;
        const ends = rest?.split("/")[0];
        const here = ends !== undefined && (ends === "" || field.units.some((unit) => ends === `_${unit}`));
        const missing = one.place === section && one.message.startsWith(`${key} is missing`);
        const all = one.place === "" && field.first >= 0 && one.message.startsWith(`${field.path[0]} is missing`);
        return here || missing || all;
      });
      found.forEach((one) => left.delete(one));
      const worst = show(found);
      if (worst === "error" || worst === "needed") wrong.push({ field, box, worst, found });
    }
    fill(rest, [...left].map((one) => h("p", { class: `finding ${one.severity}` }, findingWords(one))));
    for (const { fold, mark } of folded) mark.textContent = wrong.some(({ box }) => fold.contains(box)) ? " \u2013 something in here cannot be, or is needed" : "";
    const isError = (one) => one.severity === "error";
    const error = wrong.find(({ worst }) => worst === "error");
    if (error) return { words: findingWords(error.found.find(isError)), lead: () => lead(error.box) };
    if (wrong.length > 0) return { words: `Still needed: ${wrong.map(({ field }) => field.title.toLowerCase()).join(", ")}.`, lead: () => lead(wrong[0].box) };
    const other = [...left].find(isError);
    return other && { words: findingWords(other), lead: () => lead(rest) };
  }

  return { first, folded: folded.map(({ fold }) => fold), rest, showFindings };
}
