// Texts of the program held to each other: every word the same, every number within 1e-9 of the other or of its size. How many
// flights a search took is no part of its answer.

const kNumber = /-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/g;
const kTolerance = 1e-9;

const withoutWork = (text) => text.replace(/("flights": ?)\d+/g, "$1N");

function near(a, b) {
  const off = Math.abs(Number(a) - Number(b));
  return off <= kTolerance || off <= kTolerance * Math.abs(Number(b));
}

// Where two texts first differ, with what stands there in both; null when they are the same.
export function difference(one, other) {
  const a = withoutWork(one);
  const b = withoutWork(other);
  if (a === b) return null;
  const numbersA = [...a.matchAll(kNumber)];
  const numbersB = [...b.matchAll(kNumber)];
  const around = (text, at) => JSON.stringify(text.slice(Math.max(0, at - 60), at + 60));
  let endA = 0;
  let endB = 0;
  for (let i = 0; i <= Math.max(numbersA.length, numbersB.length); ++i) {
    const [x, y] = [numbersA[i], numbersB[i]];
    const [atA, atB] = [x?.index ?? a.length, y?.index ?? b.length];
    const alike = a.slice(endA, atA) === b.slice(endB, atB) && Boolean(x) === Boolean(y) && (!x || near(x[0], y[0]));
    if (!alike) return `${around(a, atA)}\n      ${around(b, atB)}`;
    endA = atA + (x?.[0].length ?? 0);
    endB = atB + (y?.[0].length ?? 0);
  }
  return null;
}
