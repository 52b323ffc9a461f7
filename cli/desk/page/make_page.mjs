// The desk's page as one file: style, script, worker and program within it, and a policy that lets nothing in or out.
//   node make_page.mjs DATA BUILD    (BUILD holds loftwright.wasm and worker.js; desk.html is written there)
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

import { formOf } from "./fields.mjs";

const [data, build] = process.argv.slice(2).map((folder) => resolve(folder));
const here = dirname(fileURLToPath(import.meta.url));
const demo = JSON.parse(readFileSync(join(data, "pupils/demo.json")));

mkdirSync(build, { recursive: true });
writeFileSync(join(build, "data.json"), JSON.stringify({ form: formOf(data), demo }));
const bundle = (...args) => execFileSync("esbuild", [...args, "--bundle", "--minify", "--charset=utf8", "--log-level=warning"], { encoding: "utf8" });
const script = bundle(join(here, "main.js"), "--format=iife", "--target=es2020", `--alias:desk-data=${join(build, "data.json")}`).trim();
const style = bundle(join(here, "desk.css")).trim();
const worker = readFileSync(join(build, "worker.js"), "utf8");
const program = gzipSync(readFileSync(join(build, "loftwright.wasm")), { level: 9 }).toString("base64");
const icon = encodeURIComponent(readFileSync(join(here, "icon.svg"), "utf8").replace(/>\s+</g, "><").trim());

for (const [name, text] of Object.entries({ script, worker })) {
  if (/<\/script|<!--/i.test(text)) throw new Error(`${name} would end its element`);
}
const hash = `'sha256-${createHash("sha256").update(script).digest("base64")}'`;
const policy = (workers, more = "") =>
  `default-src 'none'; script-src ${hash} 'wasm-unsafe-eval'; worker-src blob:${workers}; style-src 'unsafe-inline'; img-src data: blob:; ` +
  `frame-src blob:; base-uri 'none'; form-action 'none'${more}`;
const page = (changes) => {
  const parts = { ICON: icon, STYLE: style, WORKER: worker, PROGRAM: program, SCRIPT: script, LINKS: "", ...changes };
  return readFileSync(join(here, "page.html"), "utf8").replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
};
writeFileSync(join(build, "desk.html"), page({ POLICY: policy("") }));
