// One drive under three sliders: each frame is one `strike` of the program, in the worker that stays warm.
import { button, errorWords, h, newId, shown } from "./dom.js";

// A knob's step, in the unit shown, and what an option calls that unit.
const STEPS = { yards: { speed: [0.44704, "mph", 0.5], angle: [1, "deg", 0.1] }, metres: { speed: [1, "m/s", 0.2], angle: [1, "deg", 0.1] } };

const NUMBERS = [["carry", "distance", (d) => d.flight.carry_m], ["total", "distance", (d) => d.flight.total_m],
                 ["launch", "angle", (d) => d.launch.launch_deg], ["spin", "spin", (d) => d.launch.spin_rpm],
                 ["apex", "height", (d) => d.flight.apex_m], ["descent angle", "angle", (d) => d.flight.landing_deg],
                 ["side at rest", "distance", (d) => d.flight.rest_side_m], ["ball speed", "speed", (d) => d.launch.ball_speed_mps]];

export function makeSliders(desk) {
  const knobs = [
    { key: "club_speed", title: "Club speed", what: "speed", low: 20, high: 60, option: "club-speed", of: (d) => d.club_speed_mps },
    { key: "attack", title: "Attack angle", what: "angle", low: -12, high: 12, option: "attack", of: (d) => d.attack_deg },
    { key: "loft", title: "Delivered loft", what: "angle", low: 0, high: 30, option: "dynamic-loft", of: (d) => d.dynamic_loft_deg },
  ].map((knob) => {
    const id = newId("knob");
    const output = h("output", { for: id });
    const input = h("input", { type: "range", id, min: 0, oninput: () => move() });
    return { ...knob, input, output, root: h("div", { class: "slider" }, h("label", { for: id }, knob.title), output, input) };
  });
  const now = h("p", { class: "big-now" });
  const versus = h("p", { class: "about" });
  const numbers = NUMBERS.map(([title]) => ({ title, cell: h("dd") }));
  const root = h("section", { class: "try", "aria-labelledby": "try-head", hidden: true },
                 h("h3", { id: "try-head" }, "Try it: one well-struck drive"),
                 h("div", { class: "try-parts" }, h("div", {}, knobs.map((knob) => knob.root), button("Back to the measured delivery", () => { place(); move(); })),
                   h("div", {}, now, versus, h("dl", { class: "small-numbers" }, numbers.map(({ title, cell }) => h("div", {}, h("dt", {}, title), cell))))),
                 h("p", { class: "about" }, "Each place of the sliders is one drive of the model with the present ball, turf and weather. The verdict above is the average of many, mishits and all."));
  let delivery;
  let others = [];
  let measured;
  let goal = "carry";
  let busy = false;
  let again = false;

  // Steps are counted from the measured delivery, which so is one of them.
  const at = (knob) => {
    const [size, unit, step] = STEPS[desk.units][knob.what];
    return { value: knob.of(delivery) / size + step * (Number(knob.input.value) - knob.below), size, unit };
  };
  const place = () => knobs.forEach((knob) => {
    const [size, , step] = STEPS[desk.units][knob.what];
    const steps = (length) => Math.max(0, Math.floor(length / size / step));
    knob.below = steps(knob.of(delivery) - knob.low);
    knob.input.max = knob.below + steps(knob.high - knob.of(delivery));
    knob.input.value = knob.below;
  });
  const line = () => knobs.map((knob) => `--${knob.option}=${at(knob).value.toFixed(6)}${at(knob).unit}`);

  async function move() {
    for (const knob of knobs) {
      knob.output.textContent = shown(desk.units, knob.what, at(knob).value * at(knob).size, knob.key === "attack");
      knob.input.setAttribute("aria-valuetext", knob.output.textContent);
    }
    if (busy) { again = true; return; }
    busy = true;
    try {
      const answer = await desk.program.quick.run(["strike", ...line(), ...others, "--json", "--quiet"]);
      if (answer.code > 1) { versus.textContent = errorWords(answer.err); return; }
      const drive = JSON.parse(answer.out);
      measured ??= drive;
      const distance = (d) => d.flight[`${goal}_m`];
      now.replaceChildren(h("b", {}, shown(desk.units, "distance", distance(drive))), ` of ${goal}`);
      versus.textContent = `${shown(desk.units, "distance", distance(drive) - distance(measured), true)} against the measured delivery, well struck`;
      numbers.forEach(({ cell }, i) => { cell.textContent = shown(desk.units, NUMBERS[i][1], NUMBERS[i][2](drive), NUMBERS[i][0] === "side at rest"); });
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
      goal = said.goal;
      delivery = d;
      measured = undefined;
      place();
      move();
    },
  };
}
