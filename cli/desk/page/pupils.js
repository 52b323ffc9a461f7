// The pupils on this device: opened, begun, saved as files, taken from files.
import { button, download, fileName, fill, h, picker, warn } from "./dom.js";
import { contentOf } from "./program.js";
import { academyKept, academySaved, offerAcademy } from "./academy.js";
import { asBytes, bundleOf, contentsOf, holdsAll, nameOf, newPupil, remembered } from "./store.js";
import { deletedHere, wasDeleted } from "./undo.js";

const day = (time) => new Date(time).toLocaleDateString(undefined, { year: "numeric", month: "short", day: "numeric" });

export const saveAsFile = (pupils, name, academy) => download(`${name}.loftwright.json`, bundleOf(pupils, academy), "application/json");

// Marks them as saved. The browser does not tell whether a file was written: the coach sees that it was. What the lessons do names
// other pupils, so it is in the file of all alone.
async function save(desk, pupils, name, all = false) {
  saveAsFile(pupils, name, all ? academyKept() : undefined);
  if (all) remembered.write({ academySaved: true });
  for (const pupil of pupils) await desk.store.put({ ...pupil, saved: Date.now() });
  desk.show("pupils");
}

const among = (pupils) => (pupils.length > 4 ? `${pupils.length} pupils` : pupils.map(nameOf).join(", "));

// Pupils' files, or the desk's own. One that is here already with other content is kept beside the new one; the very same is left alone.
export async function takeIn(desk, files) {
  const here = await desk.store.all();
  const wasEmpty = here.length === 0;
  const same = [];
  const other = [];
  const said = [];
  let academy;
  for (const file of files) {
    try {
      const text = new TextDecoder().decode(asBytes(await file.arrayBuffer()));
      const held = contentsOf(text, file.name);
      academy = held.academy ?? academy;
      for (const pupil of held.pupils) {
        if (here.some((one) => holdsAll(one, pupil))) {
          same.push(pupil);
          continue;
        }
        if (here.some((one) => nameOf(one) === nameOf(pupil))) other.push(pupil);
        const list = pupil.document.shots;
        if (list && !pupil.lists.some((one) => one.name === (list.file ?? list))) {
          said.push(`${nameOf(pupil)} names the list ${list.file ?? list}, which is not in the file: add it under Shots.`);
        }
        await desk.store.put(pupil);
        here.push(pupil);
      }
    } catch (error) {
      said.push(error.message);
    }
  }
  if (same.length > 0) said.push(`Here already, just as in the file: ${among(same)}. Nothing was changed.`);
  if (other.length > 0) said.push(`Here already with other content, so both are kept: ${among(other)}.`);
  const offer = academy ? await offerAcademy(desk.program, academy, wasEmpty) : {};
  desk.show("pupils");
  warn([...said, offer.words].filter(Boolean).join(" "), offer.action);
}

function licences() {
  const text = h("pre", { tabindex: "0", role: "group", "aria-label": "Licences" });
  const box = h("details", { class: "fold", ontoggle: async () => {
    if (box.open && text.textContent === "") text.textContent = new TextDecoder().decode(await contentOf("licences"));
  } }, h("summary", {}, "What is inside, and its licences"), text);
  return box;
}

export function makePupils(desk) {
  const list = h("ul", { class: "pupils" });
  const gone = h("div");
  const welcome = h("div", { class: "welcome", hidden: true },
    h("p", { class: "lead" }, "Where are a pupil's yards: in the swing, in another loft, or in both?"),
    h("p", {}, "Begin with a pupil of your own, or look at an invented one first."));
  const kept = h("div", { class: "about" });
  const invented = (properties) => button("Look at an invented pupil", async () => {
    const pupil = newPupil(structuredClone(desk.data.demo));
    await desk.store.put(pupil);
    desk.open(pupil.id);
  }, properties);
  const firstLook = invented({ hidden: true });
  const root = h("div", { class: "view pupils-view" },
    h("h1", {}, "Pupils"), welcome,
    h("div", { class: "row begin" },
      button("A new pupil", async () => {
        const pupil = newPupil();
        await desk.store.put(pupil);
        desk.open(pupil.id);
      }, { class: "main" }),
      firstLook,
      picker({ label: "Open files of pupils", accept: ".json,application/json", multiple: true, onfiles: desk.takeIn }),
      button("All pupils at once", () => desk.show("all"))),
    list, gone, kept);

  async function draw() {
    const pupils = (await desk.store.all()).sort((a, b) => b.changed - a.changed);
    list.replaceChildren(...pupils.map((pupil) => {
      const unsaved = pupil.saved === null || pupil.changed > pupil.saved;
      const name = nameOf(pupil);
      return h("li", {}, button(name, () => desk.open(pupil.id), { class: "name" }),
        h("span", { class: `when ${unsaved ? "unsaved" : ""}` }, `${day(pupil.changed)} \u00b7 ${pupil.saved === null ? "never saved as a file" : unsaved ? `changed since saved on ${day(pupil.saved)}` : "saved as a file"}`),
        h("span", { class: "row" },
          button("Save as file", () => save(desk, [pupil], fileName(name)), { "aria-label": `Save as file: ${name}` }),
          button("Pupil\u2019s file alone", () => download(`${fileName(name)}.json`, JSON.stringify(pupil.document, null, 2), "application/json"), { "aria-label": `Pupil\u2019s file alone: ${name}` }),
          button("Delete", (event) => sure(event.target, name, async () => {
            await desk.store.remove(pupil.id);
            wasDeleted("pupils", name, () => desk.store.put(pupil), draw);
          }), { "aria-label": `Delete: ${name}` })));
    }));
    const unsaved = pupils.filter((pupil) => pupil.saved === null || pupil.changed > pupil.saved);
    welcome.hidden = firstLook.hidden = pupils.length > 0;
    fill(gone, deletedHere("pupils", draw));
    const lessons = !academySaved();
    const persisted = await navigator.storage?.persist?.().catch(() => false);
    kept.replaceChildren(
      h("p", {}, "Everything stays on this device, in this browser: nothing is sent anywhere. ",
        location.protocol === "file:" ? "A browser may share its store among all files opened on this device, or keep one for each place this file lies in: move the file, and the desk may look empty. " : "",
        persisted ? "The browser has promised not to clear it away by itself. " : "The browser has promised nothing: it may clear it away when room is short, some after a week without a visit. ", "So save the pupils as files, too."),
      pupils.length > 0 ? h("p", { class: "row" }, button(pupils.length === 1 ? "Save all as one file" : `Save all ${pupils.length} as one file`, () => save(desk, pupils, "pupils", true), { class: unsaved.length || lessons ? "main" : "" }),
        h("span", {}, unsaved.length === 0 ? "All are saved as files." : `${unsaved.length} of ${pupils.length} changed since they were last saved as a file, or never were.`,
          lessons && " What your lessons do is in no file yet: the file of all will hold it.")) : "");
    kept.append(h("p", {}, "The numbers are a model's. A change of swing loads the back and the joints: build it up slowly, and stop if it hurts. A pupil with a medical history asks a doctor or physiotherapist first. A club used in competition must conform to the rules in force."));
    if (pupils.length > 0) kept.append(h("p", {}, invented({ class: "quiet" })));
    kept.append(licences());
  }
  draw();
  desk.store.onOthers(() => { if (root.isConnected) draw(); });
  return root;
}

// Asks once more, in place.
export function sure(pressed, what, act) {
  const back = () => asking.replaceWith(pressed);
  const asking = h("span", { class: "row" }, button(`Delete ${what} for good`, () => { back(); act(); }, { class: "danger" }), button("Keep", back));
  pressed.replaceWith(asking);
  asking.firstChild.focus();
}
