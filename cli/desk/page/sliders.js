// One drive under three sliders: each frame is one `strike` of the program, in the worker that stays warm.
import { button, h, newId } from "./dom.js";
import { modelFiles } from "./models.js";
import { errorWords } from "./words.js";

// A knob's step, in the unit shown.
const STEPS = { mph: 0.5, mps: 0.2, deg: 0.1 };

const NUMBERS = [["carry", (d) => d.flight.carry_m], ["total", (d) => d.flight.total_m], ["launch", (d) => d.launch.launch_deg], ["spin", (d) => d.launch.spin_rpm],
                 ["apex", (d) => d.flight.apex_m], ["landing", (d) => d.flight.landing_deg], ["side", (d) => d.flight.rest_side_m, { signed: true }],
                 ["ball_speed", (d) => d.launch.ball_speed_mps]];

export function makeSliders(desk) {
  const { numbers } = desk;
  const knobs = [
    { key: "club_speed", title: "Club speed", low: 20, high: 60, of: (d) => d.club_speed_mps },
    { key: "attack", title: "Attack angle", low: -12, high: 12, signed: true, note: h("small", { id: newId("note") }), of: (d) => d.attack_deg },
    { key: "dynamic_loft", title: "Delivered loft", low: 0, high: 30, of: (d) => d.dynamic_loft_deg },
  ].map((knob) => {
    const id = newId("knob");
    const output = h("output", { for: id });
    const input = h("input", { type: "range", id, min: 0, "aria-describedby": knob.note?.id, oninput: () => move() });
    return { ...knob, input, output, root: h("div", { class: "slider" }, h("label", { for: id }, knob.title), output, knob.note, input) };
  });
  const titles = Object.fromEntries(knobs.map(({ key, title }) => [key.replace("_", "-"), title]));
  const now = h("p", { class: "big-now" });
  const versus = h("p", { class: "about" });
  const cells = NUMBERS.map(([key]) => ({ title: key === "side" ? "side at rest" : numbers.title(key), cell: h("dd") }));
  const root = h("section", { class: "try", "aria-labelledby": "try-head", hidden: true },
                 h("h3", { id: "try-head" }, "Try it: one well-struck drive"),
                 h("div", { class: "try-parts" }, h("div", {}, knobs.map((knob) => knob.root), button("Back to the measured delivery", () => { place(); move(); })),
                   h("div", {}, now, versus, h("dl", { class: "small-numbers" }, cells.map(({ title, cell }) => h("div", {}, h("dt", {}, title), cell))))),
                 h("p", { class: "about" }, "Each place of the sliders is one drive of the model with the present ball, turf and weather. The verdict above is the average of many, mishits and all."));
  let delivery;
  let others = [];
  let measured;
  let goal = "carry";
  let busy = false;
  let again = false;

  // Steps are counted from the measured delivery, which so is one of them; all in the unit shown.
  const unitOf = (knob) => numbers.usual(desk.units, knob.key);
  const here = (knob, value) => numbers.converted(value, numbers.unitOf(knob.key), unitOf(knob));
  const step = (knob) => STEPS[unitOf(knob)];
  const at = (knob) => here(knob, knob.of(delivery)) + step(knob) * (Number(knob.input.value) - knob.below);
  const place = () => knobs.forEach((knob) => {
    const steps = (from, to) => Math.max(0, Math.floor((here(knob, to) - here(knob, from)) / step(knob)));
    knob.below = steps(knob.low, knob.of(delivery));
    knob.input.max = knob.below + steps(knob.of(delivery), knob.high);
    knob.input.value = knob.below;
  });
  const line = () => knobs.map((knob) => `--${knob.key.replace("_", "-")}=${at(knob).toFixed(6)}${numbers.option(unitOf(knob))}`);

  async function move() {
    for (const knob of knobs) {
      const value = numbers.converted(at(knob), unitOf(knob), numbers.unitOf(knob.key));
      knob.output.textContent = numbers.shown(desk.units, knob.key, value, { signed: knob.signed });
      knob.input.setAttribute("aria-valuetext", knob.output.textContent);
    }
    if (busy) { again = true; return; }
    busy = true;
    try {
      const answer = await desk.program.quick.run(["strike", ...line(), ...others, "--json", "--quiet"], modelFiles(desk.pupil));
      if (answer.code > 1) { versus.textContent = errorWords(answer.err, titles); return; }
      const drive = JSON.parse(answer.out);
      measured ??= drive;
      const distance = (d) => d.flight[`${goal}_m`];
      now.replaceChildren(h("b", {}, numbers.shown(desk.units, goal, distance(drive))), ` of ${goal}`);
      versus.textContent = `${numbers.difference(desk.units, goal, distance(drive) - distance(measured))} against the measured delivery, well struck`;
      cells.forEach(({ cell }, i) => {
        const [key, of, how] = NUMBERS[i];
        cell.textContent = numbers.shown(desk.units, key, of(drive), how);
      });
    } finally {
      busy = false;
      if (again) { again = false; move(); }
    }
  }

  return {
    root,
    // The delivery, ball, turf and weather of an answer; a head or air that no option can name is left to the answer itself.
    from(said, document) {
      const d = said.pupil.delivery;
      const { altitude_m: altitude, temperature_c: temperature, humidity_pct: humidity, wind_mps: wind, wind_from_deg: from, wind_height_m: height, wind_profile: profile } = said.conditions;
      const head = document.club?.head;
      const pressure = Object.entries(document.conditions ?? {}).find(([key]) => key.startsWith("pressure_"));
      others = [`--path=${d.path_deg}deg`, `--face=${d.face_deg}deg`, `--toe=${d.toe_mm}mm`, `--high=${d.high_mm}mm`, "--handed", said.pupil.handed,
                "--ball", said.models.ball, "--turf", said.models.turf, `--temperature=${temperature}C`, `--humidity=${humidity}%`,
                ...(typeof head === "string" ? ["--head", head] : []),
                ...(pressure ? [`--pressure=${pressure[1]}${pressure[0].slice("pressure_".length)}`] : [`--altitude=${altitude}m`]),
                ...(wind > 0 ? [`--wind=${wind}m/s`, `--wind-from=${from}deg`, `--wind-height=${height}m`, "--wind-profile", profile] : [])];
      root.hidden = said.pupil.tuned || typeof head === "object";
      if (root.hidden) return;
      const follows = document.reach?.follow !== 0;
      knobs.forEach(({ note }) => note?.replaceChildren(follows ? "The delivered loft stays; in the verdict it follows the attack." : ""));
      goal = said.goal;
      delivery = d;
      measured = undefined;
      place();
      move();
    },
  };
}
