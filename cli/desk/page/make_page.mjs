// The desk's page as one file: style, script, worker and program within it, and a policy that lets nothing in or out. Beside it the
// same page as a static site, which works offline after the first visit.
//   node make_page.mjs ROOT BUILD    (BUILD holds loftwright.wasm.gz, quantities.wasm and worker.js; desk.html and site/ are written there)
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

import { begun } from "../loader.js";
import { formOf } from "./fields.mjs";
import { licences } from "./licences.mjs";
import { packed } from "./packed.js";
import { styleOf } from "./style.mjs";

const [root, build] = process.argv.slice(2).map((folder) => resolve(folder));
const here = dirname(fileURLToPath(import.meta.url));
const data = join(root, "data");
const demo = JSON.parse(readFileSync(join(data, "pupils/demo.json")));

mkdirSync(build, { recursive: true });
const tables = JSON.parse(tablesOf(readFileSync(join(build, "quantities.wasm"))));
writeFileSync(join(build, "data.json"), JSON.stringify({ form: formOf(data, tables), tables: ofThePage(tables), demo }));

// What quantities.cpp says: a text that ends with a zero.
function tablesOf(wasm) {
  const { memory, quantities } = begun(new WebAssembly.Module(wasm));
  const bytes = new Uint8Array(memory.buffer, quantities());
  return Buffer.from(bytes.subarray(0, bytes.indexOf(0))).toString();
}

// Of the tables what the page's script asks for.
function ofThePage({ units, quantities }) {
  const some = Object.entries(quantities).map(([key, { title, allowed, shown, difference }]) => [key, { title, unit: allowed.unit, shown, difference }]);
  return { units, quantities: Object.fromEntries(some) };
}

const bundle = (...args) => execFileSync("esbuild", [...args, "--bundle", "--minify", "--charset=utf8", "--log-level=warning"], { encoding: "utf8" });
const script = bundle(join(here, "main.js"), "--format=iife", "--target=es2020", `--alias:desk-data=${join(build, "data.json")}`).trim();
writeFileSync(join(build, "desk.css"), styleOf(readFileSync(join(root, "lib/src/report/page/colours.css"), "utf8"), readFileSync(join(here, "desk.css"), "utf8")));
const style = bundle(join(build, "desk.css")).trim();
const worker = readFileSync(join(build, "worker.js"), "utf8");
// As an attribute and the text of an element.
const inPage = (bytes) => ({ size: String(bytes.length), text: packed(bytes) });
const program = inPage(readFileSync(join(build, "loftwright.wasm.gz")));
writeFileSync(join(build, "licences.txt"), licences(root));
const notices = inPage(execFileSync("zopfli", ["-c", join(build, "licences.txt")]));
const icon = encodeURIComponent(readFileSync(join(here, "icon.svg"), "utf8").replace(/>\s+</g, "><").trim());

for (const [name, text] of Object.entries({ script, worker })) {
  if (/<\/script|<!--/i.test(text)) throw new Error(`${name} would end its element`);
}
const digest = (text, as) => createHash("sha256").update(text).digest(as);
const hash = `'sha256-${digest(script, "base64")}'`;
const policy = (self = "", more = "") =>
  `default-src 'none'; script-src ${hash} 'wasm-unsafe-eval'; worker-src blob:${self}; style-src 'unsafe-inline'; img-src data: blob:${self}; ` +
  `frame-src blob:; base-uri 'none'; form-action 'none'${more}`;
const page = (changes) => {
  const parts = { ICON: icon, STYLE: style, WORKER: worker, PROGRAM: program.text, SIZE: program.size, LICENCES: notices.text, NOTICES: notices.size, SCRIPT: script, LINKS: "", ...changes };
  return readFileSync(join(here, "page.html"), "utf8").replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
};
writeFileSync(join(build, "desk.html"), page({ POLICY: policy() }));

const site = join(build, "site");
mkdirSync(site, { recursive: true });
const index = page({ POLICY: policy(" 'self'", "; manifest-src 'self'"),
                     LINKS: '<link rel="manifest" href="manifest.webmanifest">\n<link rel="apple-touch-icon" href="icon-180.png">\n' });
writeFileSync(join(site, "index.html"), index);
writeFileSync(join(site, "sw.js"), readFileSync(join(here, "sw.js"), "utf8").replace("@VERSION@", digest(index, "hex").slice(0, 16)));
for (const name of ["manifest.webmanifest", "icon-180.png", "icon-512.png"]) copyFileSync(join(here, name), join(site, name));
