// At build time: the licence notices of what is compiled into the page, out of the packages it was compiled from: of each package's
// notices those for files that may be inside, and the licences that these name.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const DOC = "/usr/share/doc";
const INSIDE = {
  "libnlopt-dev": /^(\*$|src\/algs\/slsqp\/)/,
  "libeigen3-dev": /^(\*$|Eigen\/src\/)/,
  "libfmt-dev": /^\*$/,
  "nlohmann-json3-dev": /^(\*$|include\/)/,
  "libcli11-dev": /^\*$/,
  "libfast-float-dev": /^\*$/,
  "emscripten": /^(\*$|system\/lib\/(libc|libcxx|libcxxabi|libunwind|compiler-rt|dlmalloc)\b)/,
};

// Debian's machine-readable notices: paragraphs parted by an empty line, each of fields that may run over indented lines.
function fieldsOf(paragraph) {
  return Object.fromEntries([...paragraph.matchAll(/^([A-Z][\w-]*):((?:.*)(?:\n[ \t].*)*)/gm)].map(([, name, text]) => [name, text.trim()]));
}

export function narrowed(notices, inside) {
  const paragraphs = notices.trim().split(/\n(?:[ \t]*\n)+/);
  const files = paragraphs.filter((one) => fieldsOf(one).Files?.split(/\s+/).some((file) => inside.test(file)));
  const named = new Set(files.flatMap((one) => fieldsOf(one).License.split("\n")[0].split(/\s+(?:or|and)\s+/).flatMap((name) => [name, name.replace(/ with .*/, "")])));
  const texts = paragraphs.filter((one) => !fieldsOf(one).Files && named.has(fieldsOf(one).License?.split("\n")[0].trim()));
  if (files.length === 0) throw new Error(`no notice is for ${inside}`);
  return [...files, ...texts].join("\n\n");
}

export function licences(root) {
  const boost = readdirSync(DOC).find((name) => /^libboost[\d.]+-dev$/.test(name));
  if (!boost) throw new Error("Boost's package is not installed");
  const [terms] = /^License: BSL-1\.0\n( .*\n)+/m.exec(readFileSync(join(DOC, boost, "copyright"), "utf8")) ?? [];
  if (!terms) throw new Error(`${boost}: its licence was not found`);
  const titled = (title, text) => `==== ${title} ====\n\n${text.trim()}\n`;
  return [
    titled("loftwright", readFileSync(join(root, "LICENSE"), "utf8")),
    titled("Boost (headers)", terms),
    ...Object.entries(INSIDE).map(([name, inside]) =>
      titled(`${name}: of what it holds, parts are in this page`, narrowed(readFileSync(join(DOC, name, "copyright"), "utf8"), inside))),
  ].join("\n");
}
