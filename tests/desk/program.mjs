// The program twice, for tests: the native one as a process in a scratch folder, and the desk's in memory, from the same files.
import { spawnSync } from "node:child_process";
import { lstatSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";

import { open } from "../../cli/desk/loader.js";

// Every file below a folder, by its name from there; empty folders by a name that ends in '/'.
export function filesIn(folder, below = "") {
  const files = {};
  const names = readdirSync(join(folder, below));
  if (names.length === 0 && below) files[`${below}/`] = new Uint8Array();
  for (const name of names) {
    const path = below ? `${below}/${name}` : name;
    if (lstatSync(join(folder, path)).isDirectory()) Object.assign(files, filesIn(folder, path));
    else files[path] = new Uint8Array(readFileSync(join(folder, path)));
  }
  return files;
}

export const same = (a, b) => a !== undefined && b !== undefined && Buffer.compare(Buffer.from(a), Buffer.from(b)) === 0;

// Runs the native program where these files are, and no others. Its answer is as loader.js's.
export function nativeRunner(name) {
  const program = resolve(name);
  const folder = mkdtempSync(join(tmpdir(), "loftwright-desk-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  let there = {};
  return (args, files = {}, { input = "" } = {}) => {
    if (files !== there) {
      rmSync(folder, { recursive: true, force: true });
      mkdirSync(folder);
      for (const [name, text] of Object.entries(files)) {
        mkdirSync(join(folder, name.endsWith("/") ? name : dirname(name)), { recursive: true });
        if (!name.endsWith("/")) writeFileSync(join(folder, name), text);
      }
      there = files;
    }
    const { status, stdout, stderr, error } = spawnSync(program, args, { cwd: folder, input, env: { LC_ALL: "C" }, maxBuffer: 1 << 28 });
    if (error && error.code !== "EPIPE") throw error;  // a program may answer without reading its input
    const written = {};
    for (const [name, text] of Object.entries(filesIn(folder))) {
      const before = files[name];
      const kept = before !== undefined && same(typeof before === "string" ? Buffer.from(before) : before, text);
      if (!kept && !name.endsWith("/")) written[name] = text;
    }
    if (Object.keys(written).length > 0) there = {};
    return { code: status, out: stdout.toString(), err: stderr.toString(), files: written };
  };
}

// The desk's program, opened once. Ends the test as skipped when it is not built, or not since the native one was.
export function deskOrSkip(file, program) {
  const time = (name) => statSync(name, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (time(file) === 0 || time(file) < time(program)) {
    console.log(time(file) === 0 ? `${file} is not there` : `${file} is older than ${program}`, "(.ci/desk builds it)");
    process.exit(77);
  }
  return open(new WebAssembly.Module(readFileSync(file)));
}
