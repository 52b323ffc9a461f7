// What the coach's own lessons do, as `lessons --into` writes it: kept on this device, saved within the file of all pupils, and
// taken by the answers.
import { button, warn } from "./dom.js";
import { remembered } from "./store.js";

export const academyKept = () => remembered.read().academy;
export const academySaved = () => !academyKept() || Boolean(remembered.read().academySaved);

// Of a text: keeps it, or none. What is kept no file holds yet, unless it came from one.
export function keepAcademy(text, { saved = false } = {}) {
  const kept = remembered.write({ academy: text ?? null, academySaved: saved });
  if (!kept) warn("This browser has no room to keep what your lessons do: save it as a file.");
  return kept;
}

// Options and files for a command, where it can take an academy.
export async function academyFor(program, command) {
  const academy = academyKept();
  const takes = academy && (await program.quick.run([command, "--help"])).out.includes("--academy");
  return takes ? { options: ["--academy", "academy.json"], files: { "academy.json": academy } } : { options: [], files: {} };
}

// One that came with a file: taken at once by a desk that was empty, else the coach is asked. Answers what is to be said, and done.
export async function offerAcademy(program, text, wasEmpty) {
  if (text === academyKept()) return {};
  const checked = await program.quick.run(["check", "academy.json", "--quiet"], { "academy.json": text });
  if (checked.code !== 0) return { words: "What the file says of your lessons was not taken: it is not whole." };
  const { pupils } = JSON.parse(text).follow;
  const what = `what your lessons do (from ${pupils} ${pupils === 1 ? "pupil" : "pupils"})`;
  if (wasEmpty && keepAcademy(text, { saved: true })) {
    return { words: `Every answer takes ${what}, as the file has it.`, action: button("Leave it out", () => { keepAcademy(); warn(""); }) };
  }
  return { words: `The file holds ${what}${academyKept() ? ", other than this desk has it" : ""}.`,
           action: button("Have every answer take it", () => { keepAcademy(text, { saved: true }); warn(""); }) };
}
