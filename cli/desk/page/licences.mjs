// At build time: the licence notices of all that is compiled into the page, from the packages it was compiled from.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const DOC = "/usr/share/doc";
const PACKAGES = ["libnlopt-dev", "libeigen3-dev", "libfmt-dev", "nlohmann-json3-dev", "libcli11-dev", "libfast-float-dev", "emscripten"];

export function licences(root) {
  const boost = readdirSync(DOC).find((name) => /^libboost[\d.]+-dev$/.test(name));
  if (!boost) throw new Error("Boost's package is not installed");
  const [terms] = /^License: BSL-1\.0\n( .*\n)+/m.exec(readFileSync(join(DOC, boost, "copyright"), "utf8")) ?? [];
  if (!terms) throw new Error(`${boost}: its licence was not found`);
  const titled = (title, text) => `==== ${title} ====\n\n${text.trim()}\n`;
  return [
    titled("loftwright", readFileSync(join(root, "LICENSE"), "utf8")),
    titled("Boost (headers)", terms),
    ...PACKAGES.map((name) => titled(`${name}: of what it holds, parts are in this page`, readFileSync(join(DOC, name, "copyright"), "utf8"))),
  ].join("\n");
}
