// Head and ball tuned to the pupil's shots, and the loft table for the wall.
import { Stopped } from "../desk.js";
import { button, errorWords, h, say } from "./dom.js";
import { numberOr } from "./form.js";
import { chooseList, labelled, makePaper } from "./run.js";
import { filesOf } from "./store.js";

export function makeTuning(desk) {
  const { pupil, program } = desk;
  const heading = h("h2", { class: "unseen" }, "Head and ball");
  const about = h("p", { class: "about" }, "Head and ball as this pupil's own shots show them: where a list has club and ball numbers of some twenty drives, the model can be tuned to them.");
  if (pupil.lists.length === 0) return h("div", {}, heading, about, h("p", {}, "There is no list of shots yet: add one under Shots."));
  const list = chooseList(pupil, pupil.lists.at(-1).name);
  const state = h("p", { class: "state" });
  const verdict = h("p", { class: "verdict" });
  const text = h("pre", { tabindex: "0", role: "group", "aria-label": "What tuning found", hidden: true });
  const after = h("div", { class: "row" });
  const ask = button("Tune to this list", async () => {
    state.textContent = "Working it out\u2026";
    after.replaceChildren();
    try {
      program.answering.stop();
      const args = ["tune", "pupil.json", "--shots", list.value, "--quiet", "--units", desk.units, "--into", "tuned.json"];
      const answer = await program.answering.run(args, filesOf(pupil));
      state.textContent = answer.code > 1 ? errorWords(answer.err) : "";
      if (answer.code > 1) return;
      const [, said] = /^Verdict: ([\s\S]*?)\n\n/m.exec(`${answer.out}\n\n`) ?? [];
      verdict.textContent = said?.replace(/\s+/g, " ").trim() ?? "";
      say(verdict.textContent);
      text.textContent = answer.out;
      text.hidden = false;
      const tuned = answer.files["tuned.json"];
      if (tuned) {
        after.replaceChildren(button("Take it into the pupil", () => {
          pupil.document.tuned = JSON.parse(new TextDecoder().decode(tuned)).tuned;
          desk.changed();
          desk.show("form");
        }, { class: "main keeps" }));
      }
    } catch (error) {
      state.textContent = error instanceof Stopped ? "" : `The program stopped: ${error.message}`;
    }
  }, { class: "main" });
  const drop = pupil.document.tuned && button("Leave the tuning out again", () => { delete pupil.document.tuned; desk.changed(); desk.show("form"); }, { class: "keeps" });
  return h("div", {}, heading, about, h("div", { class: "ask" }, labelled("List of shots", list)), h("div", { class: "row" }, ask, drop), state, verdict, after, text);
}

export function makeTable(desk) {
  const paper = makePaper(desk, "loft-table");
  const ends = { low: "60", high: "120", step: "5" };
  const unit = desk.units === "yards" ? "mph" : "km/h";
  if (unit === "km/h") Object.assign(ends, { low: "100", high: "190", step: "10" });
  const fields = Object.fromEntries(Object.entries(ends).map(([key, value]) => [key, h("input", { type: "text", inputmode: "decimal", autocomplete: "off", value })]));
  const mine = h("select", {}, h("option", { value: "pupil" }, "this pupil's club, ball and weather"), h("option", { value: "" }, "any golfer's"));
  const ask = button("Make the table", () => paper.show(["chart", "--json", ...Object.entries(fields).map(([key, field]) => `--speed-${key}=${numberOr(field.value)}${unit}`),
    ...(mine.value ? ["--pupil", "pupil.json"] : [])], undefined, "header"), { class: "main" });
  return h("div", {}, h("h2", { class: "unseen" }, "Loft table"), h("p", { class: "about" }, "For the wall: which loft to deliver at which club speed and attack, and what it gives. It takes some seconds."),
    h("div", { class: "ask" }, labelled(`Slowest club speed, ${unit}`, fields.low), labelled(`Fastest, ${unit}`, fields.high), labelled(`From one to the next, ${unit}`, fields.step), labelled("It holds for", mine)),
    h("div", { class: "row" }, ask), paper.root);
}
