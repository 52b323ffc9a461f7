"use strict";
// The sliders: numbers and flights from the tables in the page. Nothing is fetched, kept or sent.

(() => {
  const grid = JSON.parse(document.getElementById("grid").textContent);
  const driveAt = gridReader(grid);
  const byId = (id) => document.getElementById(id);
  const sliders = ["speed", "attack", "loft"].map((name) => byId(`try-${name}`));
  const yards = grid.units === "yards";

  // How a number is shown: unit, its size in the grid's unit, decimals. As io/words has it.
  const shown = {
    distance: yards ? ["yd", 0.9144, 0] : ["m", 1, 0],
    gain: yards ? ["yd", 0.9144, 1] : ["m", 1, 1],
    height: yards ? ["ft", 0.3048, 0] : ["m", 1, 0],
    speed: yards ? ["mph", 0.44704, 1] : ["m/s", 1, 1],
    angle: ["deg", 1, 1],
    spin: ["rpm", 1, 0],
  };
  const number = (what, value, signed) => {
    const [, size, decimals] = shown[what];
    const text = Math.abs(value / size).toFixed(decimals);
    const zero = Number(text) === 0;
    return (zero ? "" : value < 0 ? "-" : signed ? "+" : "") + text;
  };
  const quantity = (what, value, signed) => `${number(what, value, signed)} ${shown[what][0]}`;

  const pointOf = () => sliders.map((slider, i) => grid.range[i].low + grid.range[i].step * Number(slider.value));
  const turf = () => byId("try-turf").value;
  const goal = () => document.querySelector('input[name="try-goal"]:checked').value;
  const setTo = (point) =>
    sliders.forEach((slider, i) => (slider.value = Math.round((point[i] - grid.range[i].low) / grid.range[i].step)));

  // The sky is as wide and high as the longest and highest drive that the sliders reach.
  const sky = (() => {
    let far = 0, high = 0;
    const ends = (axis, parts) => Array.from({ length: parts + 1 }, (_, i) => axis.low + (axis.step * (axis.count - 1) * i) / parts);
    for (const attack of ends(grid.range[1], 4)) {
      for (const loft of ends(grid.range[2], 4)) {
        for (const id of Object.keys(grid.run_m)) {
          const d = driveAt([ends(grid.range[0], 1)[1], attack, loft], id);
          far = Math.max(far, d.total_m);
          high = Math.max(high, d.apex_m);
        }
      }
    }
    const left = 34, right = 388, top = 12;
    const across = (right - left) / (far * 1.12);
    const times = Math.min(Math.max(Math.floor(120 / (high * across)), 1), 3);
    return { left, right, top, across, up: across * times, times, ground: top + high * across * times + 6 };
  })();

  // From the tee through the top to the landing: two cubics with the right slopes at their ends.
  const way = (d) => {
    const x = (m) => (sky.left + m * sky.across).toFixed(1), y = (m) => (sky.ground - m * sky.up).toFixed(1);
    const rise = Math.tan((d.launch_deg * Math.PI) / 180), fall = Math.tan((d.landing_deg * Math.PI) / 180);
    const up = d.apex_at_m / 3, down = (d.carry_m - d.apex_at_m) / 3;
    return `M${x(0)} ${y(0)}C${x(up)} ${y(up * rise)} ${x(d.apex_at_m - up)} ${y(d.apex_m)} ${x(d.apex_at_m)} ${y(d.apex_m)}` +
      `C${x(d.apex_at_m + down)} ${y(d.apex_m)} ${x(d.carry_m - down)} ${y(down * fall)} ${x(d.carry_m)} ${y(0)}`;
  };

  const make = (name, attributes, parent, text) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    if (text !== undefined) element.textContent = text;
    parent.append(element);
    return element;
  };
  const lanes = sky.ground + 24;
  const picture = make("svg", { viewBox: `0 0 400 ${(lanes + 34).toFixed(1)}`, role: "img", "aria-labelledby": "try-title" }, byId("try-picture"));
  make("title", { id: "try-title" }, picture, "The drive as it is and the drive of the sliders, from the side");
  const stepOf = (range, most) => [1, 2, 5, 10, 20, 50, 100, 200].find((s) => range / s <= most);
  const [farUnit, farSize] = shown.distance, [highUnit, highSize] = shown.height;
  const farthest = (sky.right - sky.left) / sky.across / farSize, highest = (sky.ground - sky.top) / sky.up / highSize;
  for (let t = 0, step = stepOf(farthest, 6); t <= farthest; t += step) {
    const x = sky.left + t * farSize * sky.across;
    make("path", { class: "grid", d: `M${x} ${sky.top}V${lanes + 30}` }, picture);
    make("text", { class: "small", x, y: sky.ground + 14, "text-anchor": "middle" }, picture, t ? t : `0 ${farUnit}`);
  }
  for (let step = stepOf(highest, 3), t = step; t <= highest; t += step) {
    const y = sky.ground - t * highSize * sky.up;
    make("path", { class: "grid", d: `M${sky.left} ${y}H${sky.right}` }, picture);
    make("text", { class: "small", x: sky.left - 4, y: y + 4, "text-anchor": "end" }, picture, t);
  }
  make("text", { class: "small", x: 2, y: sky.top - 1 }, picture, highUnit);
  make("path", { class: "ground", d: `M${sky.left} ${sky.ground}H${sky.right}` }, picture);
  const drawn = [["s-as_is", "now", 0], ["s-both", "here", 1]].map(([look, name, lane]) => {
    const y = lanes + 8 + 16 * lane;
    return {
      name, y,
      way: make("path", { class: `${look} way` }, picture),
      run: make("path", { class: `${look} run` }, picture),
      mark: make("circle", { class: `${look} mark`, r: 4.5, cy: y }, picture),
      landed: make("text", { class: "on-paper", y: y + 4.5, "text-anchor": "end" }, picture),
      rest: make("text", { class: "on-paper", y: y + 4.5 }, picture),
    };
  });
  const draw = (lines, d) => {
    const landed = sky.left + d.carry_m * sky.across, rest = sky.left + d.total_m * sky.across;
    lines.way.setAttribute("d", way(d));
    lines.run.setAttribute("d", `M${landed} ${lines.y}H${rest}M${rest} ${lines.y - 5}v10`);
    lines.mark.setAttribute("cx", landed);
    lines.landed.setAttribute("x", landed - 10);
    lines.landed.textContent = `${lines.name} ${number("distance", d.carry_m)}`;
    lines.rest.setAttribute("x", rest + 5);
    lines.rest.textContent = number("distance", d.total_m);
  };

  let saying = 0;
  const say = (text) => {
    clearTimeout(saying);
    saying = setTimeout(() => (byId("try-said").textContent = text), 500);
  };

  const update = (announce) => {
    const point = pointOf(), here = driveAt(point, turf()), now = driveAt(grid.now, turf());
    const values = [quantity("speed", point[0]), quantity("angle", point[1], true), quantity("angle", point[2])];
    ["speed", "attack", "loft"].forEach((name, i) => {
      byId(`try-${name}-out`).textContent = values[i];
      sliders[i].setAttribute("aria-valuetext", values[i]);
    });
    const key = `${goal()}_m`, difference = here[key] - now[key];
    byId("try-goal-number").textContent = number("distance", here[key]);
    byId("try-goal-words").textContent = `${farUnit} ${goal() === "carry" ? "of carry" : "in all"}, well struck`;
    byId("try-difference").textContent = `${quantity("gain", difference, true)} against now on ${turf()} turf`;
    const side = Math.abs(here.rest_side_m) < farSize / 2 ? "on line" : `${quantity("distance", Math.abs(here.rest_side_m))} ${here.rest_side_m > 0 ? "right" : "left"}`;
    const texts = {
      carry: quantity("distance", here.carry_m), total: quantity("distance", here.total_m), launch: quantity("angle", here.launch_deg),
      spin: `${Math.round(here.spin_rpm / 10) * 10} rpm`, apex: quantity("height", here.apex_m), landing: quantity("angle", here.landing_deg),
      delivered: quantity("angle", here.delivered_deg), side,
    };
    for (const [name, text] of Object.entries(texts)) byId(`try-${name}`).textContent = text;
    draw(drawn[0], now);
    draw(drawn[1], here);
    if (announce) say(`${byId("try-goal-number").textContent} ${byId("try-goal-words").textContent}, ${byId("try-difference").textContent}`);
  };

  for (const slider of sliders) slider.addEventListener("input", () => update(true));
  byId("try-turf").addEventListener("change", () => update(true));
  for (const radio of document.querySelectorAll('input[name="try-goal"]')) radio.addEventListener("change", () => update(true));
  for (const button of document.querySelectorAll("button[data-strategy]")) {
    button.addEventListener("click", () => {
      setTo(grid.strategies[button.dataset.strategy] ?? grid.now);
      update(true);
    });
  }
  byId("try-part").hidden = false;
  setTo(grid.now);
  update(false);
})();
