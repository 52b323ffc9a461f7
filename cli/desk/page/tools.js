// Head and ball tuned to the pupil's shots, and the loft table for the wall.
import { Stopped } from "../desk.js";
import { button, fill, h, say } from "./dom.js";
import { numberOr } from "./form.js";
import { chooseClub, chooseList, labelled, makePaper, ownLists, rowsTable, staying } from "./run.js";
import { filesOf } from "./store.js";
import { errorWords } from "./words.js";

const PARAMETERS = { drag_scale: "drag", lift_scale: "lift", tilt_scale: "turf tilt", tilt_speed_scale: "tilt speed", bounce_scale: "bounce", rolling_scale: "rolling" };
const capital = (text) => text[0].toUpperCase() + text.slice(1);
// What tuning calls the run is a total minus its carry: shown as a total.
const RUN = "run";
const parameter = (key) => PARAMETERS[key] ?? key.replaceAll("_", " ");

// What tuning found: the model's numbers before and after, how well each predicts what was measured, and what is to be said of it.
function tuningTables({ numbers, units }, said) {
  const three = (value) => value.toFixed(3);
  const told = said.parameters.filter((one) => one.identified);
  const together = said.fit.correlations.filter(({ between, value }) => Math.abs(value) >= 0.1 && between.every((key) => told.some((one) => one.parameter === key)));
  return [
    rowsTable("What is tuned", ["as modelled", "tuned", "8 in 10", "uncertainty removed"], told.map((one) => [parameter(one.parameter),
      `${three(one.prior)} \u00b1 ${three(one.prior_sd)}`, `${three(one.value)} \u00b1 ${three(one.sd)}`, `${three(one.low80)} to ${three(one.high80)}`,
      `${(100 * one.doubt_removed).toFixed(0)} %`])),
    h("ul", { class: "about" }, said.sentences.map((sentence) => h("li", {}, sentence)),
      together.map(({ between, value }) => h("li", {}, `${capital(between.map(parameter).join(" and "))} go together: a correlation of ${value.toFixed(2)}.`))),
    rowsTable("Measured minus computed", ["shots", "mean, untuned", "mean, tuned", "typical, untuned", "typical, tuned", "typical, left out", "explained"],
      said.readings.map((one) => {
        const shown = (value, signed) => numbers.difference(units, one.reading === RUN ? "total" : one.reading, value, signed);
        return [numbers.title(one.reading), String(one.shots), ...[one.untuned.mean, one.tuned.mean].map((value) => shown(value, true)),
          ...[one.untuned.rms, one.tuned.rms, one.left_out_tuned?.rms, one.expected_sd].map((value) => shown(value, false))];
      })),
    h("p", { class: "about" }, "Typical: the root of the mean square. Left out: each shot predicted by a fit without its part of the list. Explained: what the errors of a good device and an unseen strike make of one shot."),
  ];
}

export function makeTuning(desk) {
  const { pupil, program } = desk;
  const heading = h("h2", { class: "unseen" }, "Head and ball");
  const about = h("p", { class: "about" }, "Head and ball as this pupil's own shots show them: where a list has club and ball numbers of some twenty drives, the model can be tuned to them.");
  if (pupil.lists.length === 0) return h("div", {}, heading, about, h("p", {}, "There is no list of shots yet: add one under Shots."));
  const list = chooseList(pupil, ownLists(pupil).at(-1).name);
  const club = h("div");
  const state = h("p", { class: "state" });
  const verdict = h("p", { class: "verdict" });
  const after = h("div", { class: "row" });
  const found = h("div", { class: "tuned" });
  // What is said is of the list and the driver chosen, or nothing is.
  const clear = (words = "") => {
    state.textContent = words;
    verdict.textContent = "";
    after.replaceChildren();
    found.replaceChildren();
  };
  const choose = () => {
    program.answering.stop();
    clear();
    fill(club, chooseClub(desk, pupil.lists.find((one) => one.name === list.value), choose));
  };
  list.onchange = choose;
  choose();
  const ask = button("Tune to this list", async () => {
    clear("Working it out\u2026");
    try {
      program.answering.stop();
      const args = ["tune", "pupil.json", "--shots", list.value, "--json", "--quiet", "--units", desk.units, "--into", "tuned.json"];
      const answer = await program.answering.run(args, filesOf(pupil));
      if (answer.code > 1) return clear(errorWords(answer.err));
      const said = JSON.parse(answer.out);
      fill(found, tuningTables(desk, said));
      state.textContent = "";
      verdict.textContent = said.left_out.sentence;
      say(verdict.textContent);
      const tuned = answer.files["tuned.json"];
      if (tuned) {
        after.replaceChildren(button("Take it into the pupil", () => {
          pupil.document.tuned = JSON.parse(new TextDecoder().decode(tuned)).tuned;
          desk.changed();
          desk.show("form");
        }, { class: "main keeps" }));
      }
    } catch (error) {
      if (!(error instanceof Stopped)) clear(`The program stopped: ${error.message}`);
    }
  }, { class: "main" });
  const drop = pupil.document.tuned && button("Leave the tuning out again", () => { delete pupil.document.tuned; desk.changed(); desk.show("form"); }, { class: "keeps" });
  return h("div", {}, heading, about, h("div", { class: "ask" }, labelled("List of shots", list)), club, h("div", { class: "row" }, ask, drop), state, verdict, after, found);
}

export function makeTable(desk) {
  const titles = { "speed-low": "Slowest club speed", "speed-high": "Fastest", "speed-step": "From one to the next" };
  const paper = makePaper(desk, "loft-table", { titles });
  const ends = { low: "60", high: "120", step: "5" };
  const unit = desk.units === "yards" ? "mph" : "km/h";
  if (unit === "km/h") Object.assign(ends, { low: "100", high: "190", step: "10" });
  const fields = Object.fromEntries(Object.entries(ends).map(([key, value]) => [key, staying(desk, `speed-${key}, ${unit}`, h("input", { type: "text", inputmode: "decimal", autocomplete: "off", value }))]));
  const mine = h("select", {}, h("option", { value: "pupil" }, "this pupil, ball and weather"), h("option", { value: "" }, "any golfer"));
  const ask = button("Make the table", () => paper.show(["chart", "--json", ...Object.entries(fields).map(([key, field]) => `--speed-${key}=${numberOr(field.value)}${unit}`),
    ...(mine.value ? ["--pupil", "pupil.json"] : [])], undefined, "header"), { class: "main" });
  return h("div", {}, h("h2", { class: "unseen" }, "Loft table"), h("p", { class: "about" }, "For the wall: which loft to deliver at which club speed and attack, and what it gives. It takes some seconds."),
    h("div", { class: "ask" }, Object.entries(fields).map(([key, field]) => labelled(`${titles[`speed-${key}`]}, ${unit}`, field)), labelled("It holds for", mine)),
    h("div", { class: "row" }, ask), paper.root);
}
