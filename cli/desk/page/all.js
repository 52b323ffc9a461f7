// All pupils of this device at once: who should change what, which lofts to own for them, and what the lessons do.
import { academyFor, academyKept, keepAcademy } from "./academy.js";
import { button, download, fill, h, picker } from "./dom.js";
import { booksOf, folderOf } from "./folder.js";
import { loftsIn, numberOr, tellingLofts } from "./form.js";
import { labelled, makePaper, verdictIn } from "./run.js";
import { asBytes, nameOf } from "./store.js";
import { sheetWords } from "./words.js";

const LOFTS = "Lofts that could be bought";
const PLACES = "How many to own";
const BESIDE = "header, .verdict";  // said above the page already

// Saved by itself, the page has no others beside it for the names to lead to.
const alone = (html) => html.replace(/<a href="[^"]+\.html">(.*?)<\/a>/g, "$1").replaceAll("; the name leads to the page to take home", "");

// `clinic`: a page and a table for a spreadsheet; a name in the table opens its pupil.
function everyone(desk, pupils) {
  const { files, pupils: whose } = folderOf(pupils);
  let csv = "";
  let academy = { files: {} };
  const save = button("Save the table for a spreadsheet", () => download("pupils.csv", csv, "text/csv"));
  const paper = makePaper(desk, "", { files: () => ({ ...files, ...academy.files }), name: () => "all-pupils", into: "pages", extras: [save], alone, label: "The table of all pupils" });
  paper.page.addEventListener("click", (event) => {
    const link = event.composedPath().find((one) => one.dataset?.file);
    if (!link) return;
    event.preventDefault();
    desk.open(whose.get(link.dataset.file).id);
  });
  const sentence = (answer, html) => {
    const failed = new DOMParser().parseFromString(html, "text/html").querySelectorAll("#failed li").length;
    return `${verdictIn(answer, html)}${failed > 0 ? ` ${failed} of ${pupils.length} could not be answered, and ${failed === 1 ? "stands" : "stand"} at the end with the reason.` : ""}`;
  };
  const ask = button("Answer for all", async () => {
    academy = await academyFor(desk.program, "clinic");
    csv = (await paper.show(["clinic", "pupils", "--csv", ...academy.options], sentence, BESIDE))?.out ?? "";
    paper.page.shadowRoot?.querySelectorAll("#failed li").forEach((one) => {  // by name, as the pupil's own sheet would say it
      const [, file, why] = /^([^:]+): ([\s\S]*)$/.exec(one.textContent) ?? [];
      if (whose.has(file)) one.textContent = `${nameOf(whose.get(file))}: ${sheetWords(why)}`;
    });
    const caption = paper.page.shadowRoot?.querySelector("#pupils caption");
    if (caption) caption.textContent = "Each pupil; a name opens that pupil";
    paper.page.shadowRoot?.querySelectorAll("a[href$='.html']").forEach((link) => {  // to the pupil, for there is no such file here
      link.dataset.file = decodeURIComponent(link.getAttribute("href")).replace(/\.html$/, ".json");
      link.setAttribute("href", "#sheet");
    });
  }, { class: "main" });
  return [h("h2", {}, "One table"), h("p", { class: "about" }, "Every pupil of this device, answered as on their own sheet; at the end, who could not be. A name in the table opens that pupil."), h("div", { class: "row" }, ask), paper.root];
}

// `rack`
function lofts(desk, pupils) {
  const { files } = folderOf(pupils);
  let academy = { files: {} };
  const paper = makePaper(desk, "", { files: () => ({ ...files, ...academy.files }), titles: { lofts: LOFTS, places: PLACES }, name: () => "rack", label: "The rack" });
  const field = (value, inputmode) => h("input", { type: "text", autocomplete: "off", value, inputmode });
  const list = field("9  10.5  12  13.5  15");
  const places = field("2", "numeric");
  const swing = h("select", {}, h("option", { value: "" }, "as they swing now"), h("option", { value: "--after-advice" }, "as they swing after the advice"));
  const ask = button("Choose the lofts", async () => {
    const typed = loftsIn(list.value);
    academy = await academyFor(desk.program, "rack");
    paper.show(["rack", "pupils", `--lofts=${Array.isArray(typed) ? typed.join(",") : list.value.trim()}`, `--places=${numberOr(places.value)}`, ...(swing.value ? [swing.value] : []), ...academy.options], verdictIn, BESIDE);
  }, { class: "main" });
  return [h("h2", {}, "The rack"), h("p", { class: "about" }, "Which demo lofts to own for these pupils, and where buying stops paying."),
    h("div", { class: "ask" }, labelled(`${LOFTS}, deg`, list), labelled(PLACES, places), labelled("The pupils", swing)), tellingLofts(list, { ranges: false }), h("div", { class: "row" }, ask), paper.root];
}

// `lessons`: of the books of the pupils here and of others picked; what it finds may stand in every answer.
function lessons(desk, pupils) {
  const { files } = booksOf(pupils);
  const picked = {};
  const count = h("p", { class: "about" });
  const tell = () => { count.textContent = `Books of pupils of this device: ${Object.keys(files).length}. Others picked: ${Object.keys(picked).length}.`; };
  const after = h("div", { class: "row" });
  const kept = h("p", { class: "about row" });
  const paper = makePaper(desk, "", { files: () => ({ ...files, ...picked }), name: () => "lessons", label: "What my lessons do" });
  const saveIt = (text) => button("Save it as a file", () => {
    download("academy.json", text, "application/json");
    if (text === academyKept()) keepAcademy(text, { saved: true });
  });
  const takes = async () => {
    const all = (await academyFor(desk.program, "clinic")).options.length > 0;
    fill(kept, academyKept() && [h("span", {}, `Every answer takes what your lessons do where a pupil\u2019s file says nothing of it${all ? "" : "; the table of all pupils and the rack do not"}. `),
      button("Leave it out again", () => { keepAcademy(); takes(); }), saveIt(academyKept())]);
  };
  const ask = button("See what my lessons do", async () => {
    after.replaceChildren();
    const answer = await paper.show(["lessons", "books", "--into", "academy.json"], verdictIn, BESIDE);
    const bytes = answer?.files["academy.json"];
    if (!bytes) return;
    const text = new TextDecoder().decode(bytes);
    if (text === academyKept()) return;
    after.replaceChildren(button("Have every answer take it", () => {
      if (!keepAcademy(text)) return;
      after.replaceChildren();
      takes();
    }, { class: "main" }), saveIt(text));
  }, { class: "main" });
  tell();
  takes();
  return [h("h2", {}, "What my lessons do"), h("p", { class: "about" }, "From the books of all pupils: how loft and speed move with the attack, and how much of what was promised was reached."), count,
    h("div", { class: "row" }, picker({ label: "Pick or drop other books", accept: ".json,application/json", multiple: true, onfiles: async (all) => {
      for (const file of all) picked[`books/picked ${file.name}`] = asBytes(await file.arrayBuffer());
      tell();
    } }), ask), kept, after, paper.root];
}

export function makeAll(desk) {
  const root = h("div", { class: "view all" }, h("div", { class: "who" }, h("h1", {}, "All pupils"), button("Back to the list", () => desk.show("pupils"))));
  desk.store.all().then((pupils) => root.append(...(pupils.length === 0 ? [h("p", {}, "There are no pupils on this device yet.")] : [...everyone(desk, pupils), ...lofts(desk, pupils)]), ...lessons(desk, pupils)));
  return root;
}
