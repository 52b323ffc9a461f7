// Pupils kept on the desk as a folder, for commands over many: each file of it can be used as it lies there.
//   node folder.mjs LOFTWRIGHT DESK.wasm SOURCE_DIR      exit 77: the desk is not built
import { readFileSync } from "node:fs";
import { join } from "node:path";

import { booksOf, folderOf } from "../../cli/desk/page/folder.js";
import { asBytes, bundleOf, bytesOf, contentsOf, newPupil } from "../../cli/desk/page/store.js";
import { deskOrSkip } from "./program.mjs";

const [program, wasm, source] = process.argv.slice(2);
const desk = deskOrSkip(wasm, program);
const read = (name) => new Uint8Array(readFileSync(join(source, "data", name)));
const json = (name) => JSON.parse(new TextDecoder().decode(read(name)));
const wrong = [];
const expect = (holds, what) => { if (!holds) wrong.push(what); };

// Two of the same name, each with a list of the same name that is the delivery, and a ball of their own; one with neither.
const ball = { ...json("balls/reference.json"), id: "own" };
const made = (when) => {
  const pupil = newPupil({ ...json("academy/ivo.json"), name: "Ivo (invented)", ball: "mine.json", shots: "list.csv" });
  delete pupil.document.delivery;
  delete pupil.document.measured_shots;
  pupil.lists.push({ name: "list.csv", bytes: read(`academy/ivo-${when}.csv`), out: {} });
  pupil.models.push({ name: "mine.json", kind: "ball", bytes: new TextEncoder().encode(JSON.stringify(ball)) });
  pupil.book = { "book.json": read("books/demo.json"), "book.json.previous": read("books/demo.json") };
  return pupil;
};
const pupils = [made("before"), made("after"), newPupil(json("pupils/demo.json"))];
const before = JSON.stringify(pupils.map((one) => one.document));
const { files, pupils: whose } = folderOf(pupils);
expect([...whose.keys()].join(" ") === "ivo-invented.json ivo-invented-2.json marlow-fenn-invented.json", `each has a name: ${[...whose.keys()]}`);
expect(JSON.stringify(pupils.map((one) => one.document)) === before, "the pupils themselves are as they were");
const speeds = new Set();
for (const [name, pupil] of whose) {
  const answer = desk(["advise", `pupils/${name}`, "--json", "--draws", "0", "--quiet"], files);
  expect(answer.code === 0, `${name}: ${answer.err}`);
  const said = answer.code === 0 && JSON.parse(answer.out);
  expect(said && said.pupil.name === pupil.document.name, `${name} is ${pupil.document.name}`);
  speeds.add(said && said.pupil.delivery.club_speed_mps);
}
expect(speeds.size === 3, "each has the delivery of its own list");
const books = booksOf(pupils);
expect([...books.pupils.keys()].join(" ") === "ivo-invented.json ivo-invented-2.json", "who has a book has a file of it");
for (const name of books.pupils.keys()) expect(desk(["book", "list", `books/${name}`], books.files).code === 0, `books/${name} can be read`);

// A list of several clubs: the one chosen counts, as `--club` has it, and all where all are asked for; lines keep their numbers.
const heads = { name: "heads.csv", bytes: read("academy/ivo-heads.csv"), out: {} };
const shots = (list, { everyClub, club } = {}) =>
  JSON.parse(desk(["shots", "heads.csv", "--json", ...(club ? ["--club", club] : [])], { "heads.csv": bytesOf(list, { everyClub }) }).out);
heads.clubs = shots(heads).clubs;
expect(heads.clubs.map(({ club, lines }) => `${club} ${lines.length}`).join(", ") === "Demo 10.5 12, Demo 12.5 12, Demo 14 12, Own 9 12", "a list names its clubs");
const native = shots(heads, { club: "Demo 14" });
heads.club = "Demo 14";
const chosen = shots(heads);
expect(chosen.counted === 12 && JSON.stringify(chosen.readings) === JSON.stringify(native.readings), "one club alone, as with --club");
expect(JSON.stringify(chosen.clubs) === JSON.stringify(heads.clubs.filter(({ club }) => club === "Demo 14")), "on the lines where it stood");
expect(shots(heads, { everyClub: true }).counted === 48, "all of them");
heads.out[heads.clubs[2].lines[0]] = "taken out";
expect(shots(heads).counted === 11 && shots(heads, { everyClub: true }).counted === 47, "and what is taken out is out of both");

// A head with a letter beyond ASCII, in the encodings that spreadsheets write, is one that a word can be chosen for.
const table = "Exported;;\nSchl\u00e4ger v;Attack;Loft\n130,5;-4;10\n131,5;-3;11\n";
for (const encoding of ["utf8", "latin1", "utf16le"]) {
  const written = Buffer.from(encoding === "utf16le" ? `\ufeff${table}` : table, encoding);
  const list = { name: "odd.csv", bytes: asBytes(new Uint8Array(written).buffer), out: {}, heads: { "Schl\u00e4ger v": "Club Speed (km/h)", Loft: "Dynamic Loft (deg)" } };
  const said = JSON.parse(desk(["shots", "odd.csv", "--json"], { "odd.csv": bytesOf(list) }).out);
  expect(said.pupil && Math.abs(said.pupil.delivery.club_speed_mps - 131 / 3.6) < 1e-6, `${encoding}: read by the words chosen: ${said.unused}`);
}

// All as one file, and what the lessons do with them.
pupils[2].lists.push(heads);
const academy = new TextDecoder().decode(desk(["lessons", "books", "--into", "academy.json"], Object.fromEntries(["anneke-thole", "bertil-oak", "cleo-marsh"].map((name) => [`books/${name}.json`, read(`academy/books/${name}.json`)]))).files["academy.json"] ?? new Uint8Array());
expect(academy.includes("loftwright-academy/1"), "there is an academy");
const back = contentsOf(bundleOf(pupils, academy), "all.json");
expect(back.academy === academy && contentsOf(academy, "academy.json").academy === academy, "it comes back as it was, alone too");
expect(contentsOf(bundleOf(pupils), "all.json").academy === undefined, "or is not there");
const plain = (all) => JSON.stringify(all.map(({ document, lists, models, book, aside }) => [document, aside, book, models, lists]),
                                      (_, value) => (value instanceof Uint8Array ? [...value] : value));
expect(plain(back.pupils) === plain(pupils), "and so do the pupils, with every choice made of their lists");

for (const one of wrong) console.log(one);
console.log(`${whose.size} pupils and ${books.pupils.size} books in folders, ${wrong.length} findings`);
process.exit(wrong.length === 0 ? 0 : 1);
