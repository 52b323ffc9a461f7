// A command asked for by a button, and its page on the sheet: what all sheets but the answer share.
import { Stopped } from "../desk.js";
import { button, download, fileName, h, newId, say } from "./dom.js";
import { printPage, showPage } from "./sheet.js";
import { filesOf, nameOf } from "./store.js";
import { errorWords } from "./words.js";

// A label above a field.
export function labelled(text, field) {
  field.id = newId("field");
  return h("div", {}, h("label", { for: field.id }, text), field);
}
const several = (list) => (list?.clubs?.length ?? 0) > 1;
// The lists of one driver alone, the newest last; all where there are none.
export function ownLists({ lists }) {
  const own = lists.filter((list) => list.club || !several(list));
  return own.length > 0 ? own : lists;
}
// Whose shots of a list that names several clubs are the pupil's; `renew` after the choice. Nothing for any other list.
export function chooseClub(desk, list, renew) {
  if (!several(list)) return undefined;
  const select = h("select", { class: "keeps", disabled: desk.readOnly, onchange: () => { list.club = select.value || undefined; desk.keep(); renew(); } },
    h("option", { value: "" }, "all of them together"), list.clubs.map(({ club, lines }) => (club === "" ? undefined : h("option", { value: club, selected: list.club === club }, `${club} (${lines.length} ${lines.length === 1 ? "shot" : "shots"})`))));
  return h("div", { class: "club" }, h("div", { class: "ask" }, labelled(`Whose shots of ${list.name} count?`, select)),
    !list.club && h("p", { class: "finding warning" }, `It has shots of ${list.clubs.length} clubs, which are taken as those of one: choose the pupil\u2019s.`));
}
export const chooseList = (pupil, chosen) =>
  h("select", {}, pupil.lists.map((list) => h("option", { value: list.name, selected: list.name === chosen }, list.name)));

// What is typed into a field of a sheet stays there while the pupil is open, whichever sheets are looked at meanwhile.
export function staying(desk, key, field) {
  field.value = desk.typed[key] ?? field.value;
  field.addEventListener("input", () => { desk.typed[key] = field.value; });
  return field;
}

// What the pupil's file, one of `files`, says of hand, club, ball and weather, as options. Where it cannot be used the hand alone,
// and what the sheet is to say.
export async function pupilOptions({ pupil, program }, files) {
  if ((await program.quick.run(["check", "pupil.json", "--quiet"], files)).code === 0) return { options: ["--pupil", "pupil.json"], note: "" };
  const { handed } = pupil.document;
  return { options: handed ? ["--handed", handed] : [],
           note: "Answered without the pupil, for the usual driver, ball and weather: the pupil\u2019s sheet cannot be used as it stands, and says why." };
}

// The sentence that a page begins with.
export const verdictIn = (answer, html) => new DOMParser().parseFromString(html, "text/html").querySelector(".verdict").textContent;

// Where a command's page goes. `show(args, tell)` runs it with `--html`; `tell(answer, html)` gives the sentence to say. Of a folder of
// pages it is the first. `extras` stand beside the buttons; `alone(html)` is what is saved and printed; `titles` are those of the fields
// that options are typed in.
export function makePaper(desk, word, { files = () => filesOf(desk.pupil), titles = {}, name = () => `${fileName(nameOf(desk.pupil))}-${word}`, into = "page.html", extras = [], alone = (html) => html, label = "The answer" } = {}) {
  const said = h("p", { class: "verdict" });
  const state = h("p", { class: "state" });
  const doubt = h("p", { class: "finding warning" });
  const page = h("div", { class: "page-host" });
  let html = "";
  const tools = h("div", { class: "row", hidden: true },
    button("Save this page", () => download(`${name()}.html`, alone(html), "text/html")), button("Print it", () => printPage(alone(html))), extras);
  const root = h("section", { class: "paper", "aria-label": label }, state, doubt, said, tools, page);
  // What is greyed is the answer to something else, and is neither saved nor printed.
  const present = (is) => {
    root.classList.toggle("stale", !is);
    for (const one of tools.querySelectorAll("button")) one.disabled = !is;
  };
  return {
    root, page,
    clear(text = "") { state.textContent = text; said.textContent = ""; doubt.textContent = ""; tools.hidden = true; page.hidden = true; present(true); },
    async show(args, sentence = () => "", without = "", note = "") {
      desk.program.answering.stop();
      state.textContent = "Working it out\u2026";
      present(false);
      try {
        const answer = await desk.program.answering.run([...args, "--quiet", "--units", desk.units, "--html", into], files());
        const written = answer.files[into] ?? answer.files[`${into}/index.html`];  // also where some of many failed
        if (!written) return this.clear(errorWords(answer.err, titles));
        html = new TextDecoder().decode(written);
        said.textContent = sentence(answer, html);
        said.classList.toggle("long", said.textContent.length > 240);
        if (said.textContent) say(said.textContent);
        state.textContent = "";
        doubt.textContent = note;
        page.hidden = tools.hidden = false;
        showPage(page, html, { without });
        present(true);
        return answer;
      } catch (error) {
        if (!(error instanceof Stopped)) this.clear(`The program stopped: ${error.message}`);
      }
    },
  };
}

// A table whose rows become small lists of their own where the sheet is narrow: heads of the columns, then rows of a head and cells.
export function rowsTable(caption, heads, rows) {
  return h("table", { class: "rows", role: "table" }, h("caption", {}, caption),
    h("thead", { role: "rowgroup" }, h("tr", { role: "row" }, ["", ...heads].map((head) => (head ? h("th", { scope: "col", role: "columnheader" }, head) : h("td", { role: "cell" }))))),
    h("tbody", { role: "rowgroup" }, rows.map(([name, ...cells]) => h("tr", { role: "row" }, h("th", { scope: "row", role: "rowheader" }, name),
      cells.map((cell, i) => h("td", { role: "cell", "data-head": heads[i] }, cell))))));
}
