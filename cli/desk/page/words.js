// What the program says, in the words of the sheets: without what is for a terminal, for the options of a command the titles of the
// fields that they were typed in, and for a place in the pupil's file the title of its field.
import data from "desk-data";

const FIELDS = [...data.form.first.map((field) => [field, field.title]),
                ...data.form.sections.flatMap((section) => section.fields.map((field) => [field, `${section.title}, ${field.title.toLowerCase()}`]))];
const UNIT = "(?:mph|km/h|m/s|deg)";

// Of "/club/loft_deg" the title of its field, of "/club" that of its section.
function titleAt(place) {
  if (/^\/shots\b/.test(place)) return "The list of shots";
  const [, title] = FIELDS.find(([{ path, units }]) => {
    const at = `/${path.join("/")}`;
    const [key] = place.slice(at.length).split("/");
    return place.startsWith(at) && (key === "" || units.some((unit) => key === `_${unit}`));
  }) ?? [];
  return title ?? data.form.sections.find(({ key }) => place === `/${key}`)?.title ?? place.slice(1).replaceAll("/", ", ").replaceAll("_", " ");
}

// A finding of `check`.
export function findingWords({ place, message }) {
  const [said, missing] = /^(\w+) is missing(?=(; (?:write|give) .*)?$)/.exec(message) ?? [message];
  const inList = /\/\d+$/.test(place);  // one of several has no title of its own
  return missing && !inList ? `${titleAt(`${place}/${missing}`)} is missing` : place ? `${titleAt(place)}: ${said}` : said;
}

// What a command says of a pupil's file: findings, in lines of their own or one after the other.
export function sheetWords(text) {
  const findings = text.trim().split(/\s*\n\s*|; (?=\/|\w+ is missing)/).map((one) => /^(?:(\/\S*): )?(.*)$/.exec(one));
  return findings.map(([, place = "", message]) => findingWords({ place, message })).join("; ");
}

// `titles`: of a command's options the fields they stand for, { "speed-step": "From one to the next" }.
export function errorWords(text, titles = {}) {
  const said = text.trim().replace(/^loftwright[\w ]*: /, "").replace(/\nTry 'loftwright[\s\S]*$/, "");
  const [, findings] = /^pupil\.json cannot be used:([\s\S]*)$/.exec(said) ?? [];
  if (findings) return `The pupil\u2019s sheet cannot be used yet: ${sheetWords(findings)}`;
  return said.replace(/\s*\n\s*/g, " ").replace(/; (name columns|say it) with --map.*$/, "; say below what its columns hold").replace(/; choose one with --club$/, "")
    .replace(/^(--[\w-]+)=? needs a value.*$/, "$1: a value is needed").replace(/--([\w-]+)/g, (option, name) => titles[name] ?? option)
    .replace(new RegExp(`'([^']*?)${UNIT}?' has (?:no number; expected one with a unit|the unknown unit).*$`), (_, typed) => (typed ? `'${typed}' is no number` : "a value is needed"))
    .replace(new RegExp(`'([^']*?)${UNIT}' is out of range`), "'$1' is out of range")
    .replace("written as YYYY-MM-DD", "written as 2026-03-14");
}
