// The desk: which sheet lies on top, and what every part of it shares.
import data from "desk-data";

import { makeAll } from "./all.js";
import { makeAnswer } from "./answer.js";
import { button, byId, fileName, h, warn } from "./dom.js";
import { makeForm } from "./form.js";
import { makeHeads } from "./heads.js";
import { PLACES, modelIn, modelsAt, takeModel } from "./models.js";
import { openProgram, tooOld } from "./program.js";
import { makePupils, saveAsFile, takeIn } from "./pupils.js";
import { makeLesson } from "./lesson.js";
import { makeSeason } from "./season.js";
import { giveDeliveryBack, makeShots } from "./shots.js";
import { filesOf, nameOf, openStore, remembered } from "./store.js";
import { makeTable, makeTuning } from "./tools.js";
import { withdrawOffer } from "./undo.js";
import { makeUnits } from "./units.js";

const VIEWS = [["form", "Pupil"], ["shots", "Shots"], ["lesson", "Before and after"], ["heads", "Drivers side by side"], ["season", "Season"], ["tune", "Head and ball"], ["table", "Loft table"]];

const keeping = new Map();  // pupils being written

// What the parts share. `pupil` is the open one; `changed` is called after every edit of it.
const desk = {
  data, numbers: makeUnits(data.tables), program: undefined, store: undefined, pupil: undefined, readOnly: false,
  typed: {},  // into the sheets of the open pupil, and not yet part of it
  get units() { return remembered.read().units ?? "yards"; },
  // Written at once; what is edited while a write is under way is written after it, in one go.
  async keep() {
    const { pupil } = desk;
    if (desk.readOnly || !pupil) return;
    pupil.changed = Date.now();
    desk.tellSaved?.();
    if (keeping.has(pupil)) { keeping.set(pupil, "again"); return; }
    try {
      do {
        keeping.set(pupil, "now");
        await desk.store.put(pupil);
      } while (keeping.get(pupil) === "again");
    } catch (error) {
      warn(error?.name === "QuotaExceededError"
        ? "The device gives this page no more room: what was kept before is still there, the last change is not. Save the pupils as a file, then delete one."
        : `The last change could not be kept on this device (${error?.message ?? error}). Save the pupil as a file.`);
    } finally {
      keeping.delete(pupil);
    }
  },
  changed() { desk.keep(); desk.check?.(); },
  show, open, takeIn: (files) => takeIn(desk, files),
};

function looks() {
  const { units, look } = remembered.read();
  byId("units").value = units ?? "yards";
  byId("look").value = look ?? "";
  document.documentElement.dataset.look = look ?? "";
}

// One tab has a pupil open at a time: the lock is held until another pupil is opened or the tab is gone.
let release = () => {};
async function hold(id) {
  release();
  return new Promise((got) => {
    navigator.locks.request(`loftwright-pupil-${id}`, { ifAvailable: true }, (lock) => {
      got(Boolean(lock));
      return lock && new Promise((done) => { release = done; });
    });
  });
}

async function open(id, view = "form", byHand = true) {
  const mine = await hold(id);
  const pupil = await desk.store.get(id);
  if (!pupil) return show("pupils");
  if (desk.pupil?.id !== id) desk.typed = {};
  desk.pupil = pupil;
  desk.readOnly = !mine;
  warn(mine ? "" : `${nameOf(pupil)} is open in another tab of this browser. Here the sheet can be read, and nothing is kept.`,
       mine ? undefined : button("Try again", () => open(id, view)));
  drawPupil(view);
  if (byHand) byId("sheet").focus({ preventScroll: true });
  scrollTo(0, 0);
}

// Each sheet is an entry of the browser's history, so that its back button leads to the sheet before; the same again is none.
function enter(pupil, view) {
  const { state } = history;
  if (state?.pupil === pupil && state?.view === view) return;
  try {
    history[state ? "pushState" : "replaceState"]({ pupil, view }, "");
  } catch {
    // a browser that takes no more for now: back then leads further
  }
}
function back({ state }) {
  if (!state) return;
  if (state.pupil && state.pupil !== desk.pupil?.id) open(state.pupil, state.view);
  else show(state.view);
}

function show(view) {
  withdrawOffer();
  if (view === "pupils" || view === "all" || !desk.pupil) {
    endPupil();
    release();
    enter(null, view === "all" ? "all" : "pupils");
    desk.pupil = undefined;
    remembered.write({ pupil: null });
    byId("sheet").replaceChildren(view === "all" ? makeAll(desk) : makePupils(desk));
    document.title = "The desk: loftwright";
  } else {
    drawPupil(view);
  }
}

let endPupil = () => {};

function drawPupil(view = "form") {
  const byTab = document.activeElement?.closest?.(".tabs");
  endPupil();
  withdrawOffer();
  const { pupil } = desk;
  enter(pupil.id, view);
  remembered.write({ pupil: pupil.id, view });
  const title = h("h1", {}, nameOf(pupil));
  const tabs = h("nav", { class: "tabs", "aria-label": "Sheets of this pupil" }, VIEWS.map(([key, words]) =>
    button(words, () => drawPupil(key), { "aria-current": key === view ? "page" : undefined })));
  const saved = h("span");
  const save = button("Save as a file", async () => {
    saveAsFile([pupil], fileName(nameOf(pupil)));
    if (!desk.readOnly) await desk.store.put(Object.assign(pupil, { saved: Date.now() }));
    tellSaved();
  });
  const sheet = h("div", { class: `view ${view}` });
  byId("sheet").replaceChildren(h("div", { class: "who" }, title, h("p", { class: "about kept" }, saved, save)), tabs, sheet);
  document.title = `${nameOf(pupil)}: the desk`;
  const tellSaved = () => {
    title.textContent = nameOf(pupil);
    save.classList.toggle("main", pupil.saved === null || pupil.changed > pupil.saved);
    saved.textContent = desk.readOnly ? "Open in another tab: to read only." : pupil.saved === null ? "Kept on this device only; never saved as a file."
      : pupil.changed > pupil.saved ? "Kept on this device; changed since it was last saved as a file." : "Kept on this device, and saved as a file.";
  };
  tellSaved();
  desk.tellSaved = tellSaved;
  endPupil = () => { desk.check = undefined; };
  if (view === "form") drawForm(sheet);
  else if (view === "shots") sheet.append(makeShots(desk).root);
  else sheet.append({ lesson: makeLesson, heads: makeHeads, season: makeSeason, tune: makeTuning, table: makeTable }[view](desk));
  // Who walks by keyboard stays where they were.
  if (byTab) tabs.querySelector("[aria-current]").focus();
  if (desk.readOnly && view !== "form") sheet.querySelectorAll("input, button.keeps").forEach((one) => { one.disabled = true; });
}

function drawForm(sheet) {
  const answer = makeAnswer(desk);
  const models = {
    at: (place) => modelsAt(desk.pupil, place),
    async take(file, title) {
      if (!(await takeFile(file))) warn(`${file.name} is no file of a ball, a head or a turf: ${title} was not changed.`);
    },
  };
  const form = makeForm(data.form, { document: () => desk.pupil.document, numbers: desk.numbers, system: () => desk.units, models, changed: () => { desk.changed(); } });
  const list = desk.pupil.document.shots;
  const name = typeof list === "string" ? list : list?.file;
  const club = desk.pupil.lists.find((one) => one.name === name)?.club;
  const from = list && h("p", { class: "from-list" }, `Delivery, scatter and number of drives come from the list ${name}${club ? `, ${club} alone` : ""}. `,
                         button("Type them instead", () => {
                           giveDeliveryBack(desk.pupil);
                           desk.changed();
                           drawPupil("form");
                         }));
  let leads;  // to what keeps the form from an answer
  const strip = h("a", { class: "strip", href: "#answer-head", onclick: (event) => {
    event.preventDefault();
    if (leads) return leads();
    const head = byId("answer-head");
    head.scrollIntoView();
    head.focus({ preventScroll: true });
  } });
  const empty = !list && !desk.pupil.document.delivery && !desk.pupil.document.launch;
  const hint = empty && h("p", { class: "from-list" }, "A list of shots fills in the delivery by itself: add it under Shots. Where only the ball was measured, use Ball numbers below.");
  const fields = h("fieldset", { class: "form", disabled: desk.readOnly }, h("legend", { class: "unseen" }, "The pupil"), from, hint, form.first, form.rest,
                   h("h2", {}, "More, if it is known"), h("p", { class: "about" }, "What is left out is taken as usual, and the answer says so."), form.folded,
                   theFile(() => drawPupil("form")));
  const care = h("p", { class: "care" }, "The numbers are a model's. A new swing loads the back and the joints: build it up slowly, and stop if it hurts. ",
                 "With an illness, an injury or an operation, ask a doctor or physiotherapist first. Warm up, and keep clear space all around. ",
                 "A club used in competition must conform to the rules in force.");
  sheet.append(h("div", { class: "left" }, h("h2", { class: "unseen" }, "The pupil"), fields), h("div", { class: "right" }, answer.root, care), strip);
  answer.onVerdict((words, stale, fault) => {
    leads = fault?.lead;
    strip.replaceChildren(h("span", {}, desk.numbers.unbroken(words)));
    strip.classList.toggle("stale", stale && !fault);
  });

  let latest = 0;
  desk.check = async () => {
    const mine = ++latest;
    answer.edited();
    let checked;
    try {
      checked = await desk.program.quick.run(["check", "pupil.json", "--json", "--units", desk.units], filesOf(desk.pupil));
    } catch (error) {
      return warn(`The program stopped: ${error.message}. It starts afresh with the next edit.`);
    }
    if (mine !== latest || !desk.check) return;
    answer.renew(form.showFindings(JSON.parse(checked.out).findings));
  };
  endPupil = () => { desk.check = undefined; answer.end(); };
  desk.check();
}

// The document as it is, for what has no field of its own.
function theFile(after) {
  const text = h("textarea", { class: "json", spellcheck: "false", rows: 16, "aria-label": "The pupil's file, as JSON" });
  const finding = h("p", { class: "finding" });
  const box = h("details", { class: "fold", ontoggle: () => { if (box.open) text.value = JSON.stringify(desk.pupil.document, null, 2); } },
                h("summary", {}, "The file itself"), h("p", { class: "about" }, "Every key that a pupil's file may have, also those without a field above."), text, finding,
                button("Take it as it stands here", () => {
                  try {
                    const read = JSON.parse(text.value);
                    if (read?.format !== "loftwright-pupil/1") throw new Error("its \"format\" is not loftwright-pupil/1");
                    desk.pupil.document = read;
                    desk.changed();
                    after();
                  } catch (error) {
                    finding.textContent = `Not taken: ${error.message}`;
                  }
                }));
  return box;
}

// Has the open pupil use a ball, a head or a turf; answers whether the file is one.
async function takeFile(file) {
  const model = desk.pupil && !desk.readOnly && (await modelIn(file));
  if (!model) return false;
  const kept = takeModel(desk.pupil, model);
  desk.changed();
  drawPupil("form");
  if (!PLACES[kept.kind]) warn(`${kept.name} is kept beside the pupil: a ball's file names it under "aero".`);
  return true;
}

// Files dropped anywhere: pupils to the pupils, models and lists to the open one.
async function dropped(files) {
  const lists = files.filter((file) => !/\.json$/i.test(file.name));
  const pupils = [];
  for (const file of files.filter((one) => /\.json$/i.test(one.name))) {
    if (!(await takeFile(file))) pupils.push(file);
  }
  if (pupils.length > 0) takeIn(desk, pupils);
  else if (lists.length > 0 && desk.pupil) makeShots(desk).take(lists).then(() => show("shots"));
  else if (lists.length > 0) warn("A list of shots belongs to a pupil: open one first.");
}

async function main() {
  looks();
  if (tooOld()) {
    byId("sheet").replaceChildren(h("p", {}, "This browser is too old for the desk: it cannot run the program inside this page. Any browser of 2022 or later will do, brought up to date."));
    return;
  }
  const opening = openProgram();
  byId("units").onchange = (event) => { remembered.write({ units: event.target.value }); if (desk.pupil) drawPupil(remembered.read().view); else if (document.querySelector(".view.all")) show("all"); };
  byId("look").onchange = (event) => { remembered.write({ look: event.target.value }); looks(); };
  byId("to-pupils").onclick = () => show("pupils");
  if (location.protocol.startsWith("http") && "serviceWorker" in navigator) navigator.serviceWorker.register("sw.js").catch(() => {});
  // A file dropped beside its place must not lead away from the page.
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => { event.preventDefault(); dropped([...event.dataTransfer.files]); });
  try {
    desk.store = await openStore();
  } catch (error) {
    byId("sheet").replaceChildren(h("p", {}, `This browser keeps nothing for this page (${error?.message ?? error}): a private window does that. Open the desk in an ordinary one.`));
    return;
  }
  desk.program = await opening;
  addEventListener("popstate", back);
  const { pupil, view } = remembered.read();
  if (pupil && (await desk.store.get(pupil))) await open(pupil, view, false);
  else show("pupils");
}

main().catch((error) => { byId("sheet").replaceChildren(h("p", {}, `The desk could not be opened: ${error.message}`)); throw error; });
