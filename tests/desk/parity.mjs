// The desk's program against the native one: code, words and files of every command line of tests/cli/cases.json, of every list,
// book and pupil in data/, and of bad input.
//   node parity.mjs LOFTWRIGHT DESK.wasm SOURCE_DIR      exit 77: the desk is not built
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

import { deskOrSkip, filesIn, nativeRunner } from "./program.mjs";
import { difference } from "./same_words.mjs";

const [program, wasm, source] = process.argv.slice(2);
const desk = deskOrSkip(wasm, program);
const native = nativeRunner(program);
let lines = 0;
const differing = [];

function compare(args, files, options = {}) {
  ++lines;
  const a = native(args, files, options);
  const b = desk(args, files, options);
  const found = [];
  if (a.code !== b.code) found.push(`code ${a.code}, on the desk ${b.code}`);
  for (const stream of ["out", "err"]) {
    const off = difference(a[stream], b[stream]);
    if (off) found.push(`${stream}:\n      ${off}`);
  }
  const [namesA, namesB] = [Object.keys(a.files).sort().join(" "), Object.keys(b.files).sort().join(" ")];
  if (namesA !== namesB) found.push(`files ${namesA}, on the desk ${namesB}`);
  for (const name of Object.keys(a.files)) {
    const text = (bytes) => (bytes ? Buffer.from(bytes).toString() : "");
    const off = difference(text(a.files[name]), text(b.files[name]));
    if (off) found.push(`${name}:\n      ${off}`);
  }
  if (found.length > 0) differing.push(`${JSON.stringify(args)}\n    ${found.join("\n    ")}`);
}

// RFC 7386.
function merged(target, patch) {
  if (patch === null || typeof patch !== "object" || Array.isArray(patch)) return patch;
  const out = target && typeof target === "object" && !Array.isArray(target) ? { ...target } : {};
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) delete out[key];
    else out[key] = merged(out[key], value);
  }
  return out;
}

const textOf = (content) => (typeof content === "string" ? content : JSON.stringify(content, null, 2));
const wordsOf = (line) => [...line.matchAll(/(?:[^\s"]|"[^"]*")+/g)].map(([word]) => word.replaceAll('"', ""));

const data = Object.fromEntries(Object.entries(filesIn(join(source, "data"))).map(([name, bytes]) => [`data/${name}`, bytes]));
const demo = JSON.parse(Buffer.from(data["data/pupils/demo.json"]).toString());

for (const one of JSON.parse(readFileSync(join(source, "tests/cli/cases.json"), "utf8"))) {
  const files = { ...data, "case/": "" };
  for (const [name, content] of Object.entries(one.files ?? {})) files[`case/${name}`] = textOf(content);
  if (one.pupil) files["case/pupil.json"] = JSON.stringify(merged(demo, one.pupil), null, 2);
  const args = (Array.isArray(one.args) ? one.args : wordsOf(one.args)).map((word) => word.replaceAll("@", "case"));
  compare(args, files, { input: one.stdin === undefined ? "" : textOf(one.stdin) });
}

for (const name of Object.keys(data)) {
  const kind = name.split("/")[1];
  compare(["check", name], data);
  if (name.endsWith(".csv")) {
    compare(["shots", name, "--json"], data);
    compare(["shots", name], data);
  }
  if (kind === "pupils" || (kind === "academy" && name.endsWith(".json"))) {
    compare(["advise", name, "--json", "--html", "page.html"], data);
    compare(["advise", name, "--units", "metres"], data);
  }
  if (kind === "books") {
    for (const what of ["list", "export", "history"]) compare(["book", what, name], data);
    compare(["book", "history", name, "--json", "--html", "page.html"], data);
    compare(["book", "add", name, "--club-speed", "84mph", "--attack", "1deg", "--dynamic-loft", "13deg"], data);
    compare(["book", "undo", name], data);
  }
  if (name.endsWith("-before.csv")) {
    const after = name.replace("before", "after");
    compare(["compare", name, after, "--json", "--html", "page.html"], data);
    compare(["compare", name, after], data);
    compare(["tune", name.replace("-before.csv", ".json"), "--shots", name, "--json"], data);
  }
}
compare(["chart", "--json", "--html", "page.html"], data);
compare(["compare", "-", "-"], data, { input: "5".repeat(1 << 20) });  // more than a pipe takes, and refused unread
compare(["tune", "data/pupils/demo.json", "--shots", "data/shots/tuning.csv", "--into", "tuned.json"], data);

// What a fuzzer found, and what covers the readers well.
for (const folder of ["corpus", "crashes"]) {
  const inputs = filesIn(join(source, "tests/fuzz", folder));
  for (const [name, bytes] of Object.entries(inputs)) {
    const kind = name.split("/")[0];
    const files = { "input.json": bytes, "input.csv": bytes };
    if (kind === "csv") compare(["shots", "input.csv", "--json"], files);
    else if (kind === "pupil") compare(["advise", "input.json", "--draws", "0", "--json"], files);
    else if (kind === "book") compare(["book", "history", "input.json"], files);
    else if (kind === "json") compare(["check", "input.json"], files);
    else if (kind === "units") compare(["strike", "--club-speed", Buffer.from(bytes).toString("latin1").replaceAll("\0", "0"), "--attack", "1", "--dynamic-loft", "12"], files);
  }
}

for (const one of differing) console.log(`differs: ${one}`);
console.log(`${lines} command lines, ${differing.length} differ`);
process.exit(lines > 500 && differing.length === 0 ? 0 : 1);
