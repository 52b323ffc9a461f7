// Pupils kept on the desk as a folder, for commands over many: each file of it can be used as it lies there.
//   node folder.mjs LOFTWRIGHT DESK.wasm SOURCE_DIR      exit 77: the desk is not built
import { readFileSync } from "node:fs";
import { join } from "node:path";

import { booksOf, folderOf } from "../../cli/desk/page/folder.js";
import { newPupil } from "../../cli/desk/page/store.js";
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

for (const one of wrong) console.log(one);
console.log(`${whose.size} pupils and ${books.pupils.size} books in folders, ${wrong.length} findings`);
process.exit(wrong.length === 0 ? 0 : 1);
