// How large the desk's program is, how soon its first answer comes, and how long a warm one takes beside the native program's on
// one thread. A warm one's time is the processor's, which other work on the machine hardly moves. Reports; asserts nothing.
//   node times.mjs DOOR_TIMES DESK.wasm SOURCE_DIR
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

import { open } from "../../cli/desk/loader.js";

const [native, wasm, source] = process.argv.slice(2);
const file = join(source, "data/pupils/demo.json");
const files = { "demo.json": readFileSync(file) };
const advise = ["advise", "demo.json", "--json", "--threads", "1"];
const commands = {
  advise,
  "advise with its page": [...advise, "--html", "page.html"],
  "advise --draws 0": [...advise, "--draws", "0"],
  strike: ["strike", "--club-speed", "84mph", "--attack", "1deg", "--dynamic-loft", "13deg", "--json"],
};

const bytes = readFileSync(wasm);
console.log(`${(bytes.length / 1e6).toFixed(2)} MB, ${(gzipSync(bytes, { level: 9 }).length / 1e6).toFixed(2)} MB gzipped`);

const start = performance.now();
const run = open(new WebAssembly.Module(bytes));
const opened = performance.now();
run(commands["advise with its page"], files);
console.log(`opened in ${(opened - start).toFixed(0)} ms; first answer with its page ${(performance.now() - start).toFixed(0)} ms from the start`);

const median = (times) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)];
for (const [name, args] of Object.entries(commands)) {
  const repeats = name === "strike" ? 200 : 20;
  const once = () => {
    const begin = process.cpuUsage();
    run(args, files);
    const { user, system } = process.cpuUsage(begin);
    return (user + system) / 1e3;
  };
  for (let i = 0; i < repeats / 4; ++i) once();
  const here = median(Array.from({ length: repeats }, once));
  const there = Number(execFileSync(native, [repeats, file, ...args]).toString());
  console.log(`${name}: ${here.toFixed(2)} ms, natively ${there.toFixed(2)} ms, ${(here / there).toFixed(1)} times as long`);
}
