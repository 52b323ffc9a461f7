// A command asked for by a button, and its page on the sheet: what before and after, season, tuning and the table share.
import { Stopped } from "../desk.js";
import { button, download, errorWords, fileName, h, newId, say } from "./dom.js";
import { printPage, showPage } from "./sheet.js";
import { filesOf, nameOf } from "./store.js";

// A label above a field.
export function labelled(text, field) {
  field.id = newId("field");
  return h("div", {}, h("label", { for: field.id }, text), field);
}
export const chooseList = (pupil, chosen) =>
  h("select", {}, pupil.lists.map((list) => h("option", { value: list.name, selected: list.name === chosen }, list.name)));

// Where a command's page goes. `show(args, tell)` runs it with `--html`; `tell(answer)` gives the sentence to say.
export function makePaper(desk, word) {
  const said = h("p", { class: "verdict" });
  const state = h("p", { class: "state" });
  const page = h("div", { class: "page-host" });
  let html = "";
  const tools = h("div", { class: "row", hidden: true },
    button("Save this page", () => download(`${fileName(nameOf(desk.pupil))}-${word}.html`, html, "text/html")), button("Print it", () => printPage(html)));
  const root = h("section", { class: "paper", "aria-label": "The answer" }, state, said, tools, page);
  return {
    root,
    clear(text = "") { state.textContent = text; said.textContent = ""; tools.hidden = true; page.hidden = true; root.classList.remove("stale"); },
    async show(args, sentence = () => "", without = "") {
      desk.program.answering.stop();
      state.textContent = "Working it out\u2026";
      root.classList.add("stale");
      try {
        const answer = await desk.program.answering.run([...args, "--quiet", "--units", desk.units, "--html", "page.html"], filesOf(desk.pupil));
        if (answer.code > 1) return this.clear(errorWords(answer.err));
        html = new TextDecoder().decode(answer.files["page.html"]);
        said.textContent = sentence(answer);
        if (said.textContent) say(said.textContent);
        state.textContent = "";
        page.hidden = tools.hidden = false;
        showPage(page, html, { without });
        root.classList.remove("stale");
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
