// Pupils as the commands over a folder take them: each pupil's file there, the files it names in a folder of its own beside it, so
// that no two of them share a name.
import { fileName } from "./dom.js";
import { modelFiles } from "./models.js";
import { bytesOf, nameOf } from "./store.js";

const BOOK = "book.json";

// A name in the folder for each pupil: [pupil, "ivo-lund"].
function named(pupils) {
  const taken = new Set();
  return pupils.map((pupil) => {
    const plain = fileName(nameOf(pupil));
    let name = plain;
    for (let i = 2; taken.has(name); ++i) name = `${plain}-${i}`;
    taken.add(name);
    return [pupil, name];
  });
}

// A document whose lists and models lie in `folder` now.
function moved(document, folder, own) {
  const there = (name) => (own.has(name) ? `${folder}/${name}` : name);
  const out = structuredClone(document);
  if (typeof out.shots === "string") out.shots = there(out.shots);
  else if (out.shots?.file) out.shots.file = there(out.shots.file);
  for (const [section, key] of [[out, "ball"], [out.club, "head"], [out.conditions, "turf"]]) {
    if (typeof section?.[key] === "string") section[key] = there(section[key]);
  }
  return out;
}

// { files, pupils }: texts and bytes by name, and whose each file of the folder is.
export function folderOf(pupils, folder = "pupils") {
  const files = {};
  const whose = new Map();
  for (const [pupil, name] of named(pupils)) {
    const own = { ...Object.fromEntries(pupil.lists.map((list) => [list.name, bytesOf(list)])), ...modelFiles(pupil) };
    for (const [file, bytes] of Object.entries(own)) files[`${folder}/${name}/${file}`] = bytes;
    files[`${folder}/${name}.json`] = JSON.stringify(moved(pupil.document, name, new Set(Object.keys(own))), null, 2);
    whose.set(`${name}.json`, pupil);
  }
  return { files, pupils: whose };
}

// The same of their books; pupils without one are left out.
export function booksOf(pupils, folder = "books") {
  const files = {};
  const whose = new Map();
  for (const [pupil, name] of named(pupils.filter((one) => one.book[BOOK]))) {
    files[`${folder}/${name}.json`] = pupil.book[BOOK];
    whose.set(`${name}.json`, pupil);
  }
  return { files, pupils: whose };
}
