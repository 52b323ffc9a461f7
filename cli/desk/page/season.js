// The pupil's book: sessions added from a list or from the delivery of the form, and what they show over the season.
import { button, fill, h, say } from "./dom.js";
import { numberOr } from "./form.js";
import { chooseList, labelled, makePaper, ownLists, staying } from "./run.js";
import { filesOf, nameOf } from "./store.js";
import { errorWords } from "./words.js";

const BOOK = "book.json";
// Of the options of `book add` the fields that they are typed in.
const TITLES = { date: "Day", shots: "What was measured", loft: "Loft of the driver", notes: "What was worked on", pupil: "The pupil\u2019s sheet", name: "The pupil\u2019s name" };
const today = () => { const d = new Date(); return new Date(d - d.getTimezoneOffset() * 60_000).toISOString().slice(0, 10); };

export function makeSeason(desk) {
  const { pupil, program } = desk;
  const paper = makePaper(desk, "season");
  const state = h("p", { class: "finding", role: "alert" });
  const sessions = h("div");
  const date = staying(desk, "day", h("input", { type: "text", value: today(), autocomplete: "off" }));
  const notes = staying(desk, "notes", h("input", { type: "text", autocomplete: "off" }));
  const loft = staying(desk, "loft", h("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: String(pupil.document.club?.loft_deg ?? "") }));
  const from = chooseList(pupil, ownLists(pupil).at(-1)?.name);
  if (pupil.document.delivery) from.append(h("option", { value: "" }, "the delivery in the form"));

  // What a command on the book writes is kept; answers whether it was done.
  async function change(args) {
    const answer = await program.quick.run([...args, "--units", desk.units, "--quiet"], filesOf(pupil, { delivery: from.value }));
    state.textContent = answer.code > 1 ? errorWords(answer.err, TITLES) : "";
    if (answer.code > 1) return false;
    pupil.book = { ...pupil.book, ...answer.files };
    await desk.keep();
    say(answer.out.trim().split("\n")[0]);
    draw();
    return true;
  }

  function delivery() {
    return Object.entries(pupil.document.delivery ?? {}).map(([key, value]) => {
      const [, name, unit] = /^(\w+)_(\w+)$/.exec(key);
      return `--${name.replaceAll("_", "-")}=${value}${desk.numbers.option(unit)}`;
    });
  }

  const add = button("Add this session", async () => {
    const fresh = !pupil.book[BOOK];
    const done = await change(["book", "add", BOOK, "--pupil", "pupil.json", "--date", date.value.trim(), ...(notes.value.trim() ? [`--notes=${notes.value.trim()}`] : []),
      ...(loft.value.trim() ? [`--loft=${numberOr(loft.value)}deg`] : []), ...(fresh ? [`--name=${nameOf(pupil)}`] : []),
      ...(from.value ? ["--shots", from.value] : delivery())]);
    if (!done) return;
    notes.value = "";
    notes.dispatchEvent(new Event("input"));
  }, { class: "main keeps" });

  async function draw() {
    if (!pupil.book[BOOK]) {
      fill(sessions, h("p", { class: "about" }, "The book is empty. A session is a day's list of shots, or the delivery in the form."));
      paper.clear();
      return;
    }
    const answer = await program.quick.run(["book", "list", BOOK, "--json", "--quiet"], pupil.book);
    const book = answer.code > 1 ? undefined : JSON.parse(answer.out);
    const count = book?.sessions?.length ?? 0;
    fill(sessions, h("p", {}, `${count} ${count === 1 ? "session" : "sessions"} in the book.`),
      h("ul", { class: "lists" }, (book?.sessions ?? []).map((one) => h("li", {}, h("span", { class: "row" }, h("span", {}, `${one.session}. ${one.date}${one.shots ? `, ${one.shots.file}` : ""}${one.notes ? `: ${one.notes}` : ""}`),
        button("Take it out", () => change(["book", "remove", BOOK, "--session", String(one.session)]), { class: "keeps", "aria-label": `Take it out: session ${one.session}` }))))),
      pupil.book[`${BOOK}.previous`] && button("Take back the last change of the book", () => change(["book", "undo", BOOK]), { class: "keeps" }));
    if (count > 0) paper.show(["book", "history", BOOK, "--json"], undefined, "header");
    else paper.clear();
  }
  draw();
  return h("div", {}, h("h2", { class: "unseen" }, "Season"),
    h("div", { class: "ask" }, labelled(`${TITLES.date}, as 2026-03-14`, date), labelled(TITLES.shots, from), labelled(`${TITLES.loft}, deg`, loft), labelled(TITLES.notes, notes)),
    h("div", { class: "row" }, add), state, paper.root, h("h2", {}, "The book"), sessions);
}
