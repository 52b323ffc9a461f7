// Units and numbers as the program has them: its tables (quantities.cpp) decide unit, decimals and titles here. Units are named by
// the endings of keys: mps, mph, deg.

// A value in one unit, in another; `units` as in the tables.
export function converted(units, value, from, to) {
  if (from === to) return value;
  const [a, b] = [units[from], units[to]];
  return (value * a.factor + a.offset - b.offset) / b.factor;
}

// `tables`: { units, quantities }.
export function makeUnits({ units, quantities }) {
  const symbol = (unit) => (unit ? (units[unit].dimension === "temperature" && unit !== "k" ? `\u00b0${units[unit].symbol}` : units[unit].symbol) : "");
  const unitOfAnswers = (key) => quantities[key].unit;

  // A number of an answer, in the unit that answers have it in, as the program's screen would show it.
  function shown(system, key, value, { signed = false, style = quantities[key].shown } = {}) {
    if (value === null || value === undefined) return "";
    const unit = style[system];
    const here = unit ? converted(units, value, unitOfAnswers(key), unit) : value;
    const text = (style.step ? Math.round(here / style.step) * style.step : here).toFixed(style.decimals);
    const zero = Number(text) === 0;
    return `${zero ? text.replace("-", "") : signed && value > 0 ? `+${text}` : text} ${symbol(unit)}`.trim();
  }

  // A number and the unit after it stay on one line.
  const before = new RegExp(`(\\d) (?=(?:${Object.keys(units).map(symbol).filter(Boolean).map((word) => word.replace(/[/.*+?^$()|[\]\\]/g, "\\$&")).join("|")})(?![\\w/]))`, "g");

  return {
    symbol, shown,
    unbroken: (text) => text.replace(before, "$1\u00a0"),
    option: (unit) => units[unit].symbol,                                       // as a command line has it
    converted: (value, from, to) => converted(units, value, from, to),
    difference: (system, key, value, signed = true) => shown(system, key, value, { signed, style: quantities[key].difference }),
    title: (key) => quantities[key]?.title ?? key.replaceAll("_", " "),
    unitOf: unitOfAnswers,
    usual: (system, key) => quantities[key].shown[system],                      // the unit it is shown in
  };
}
