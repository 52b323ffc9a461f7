// Verdicts of the desk and of the native program for 300 invented pupils, drawn from a seed: the same words.
//   node pupils.mjs LOFTWRIGHT DESK.wasm SOURCE_DIR [PUPILS]      exit 77: the desk is not built
import { draws } from "./draws.mjs";
import { deskOrSkip, nativeRunner } from "./program.mjs";
import { difference } from "./same_words.mjs";

const [program, wasm, , wanted] = process.argv.slice(2);
const desk = deskOrSkip(wasm, program);
const native = nativeRunner(program);
const count = Number(wanted ?? 300);

const draw = draws(20261126);
const between = (low, high, digits = 1) => Number((low + (high - low) * draw()).toFixed(digits));
const often = (share) => draw() < share;
const one = (...of) => of[Math.floor(draw() * of.length)];

function pupil() {
  const speed = between(62, 112);
  const attack = between(-6, 5);
  const loft = one(9, 9.5, 10.5, 11, 12, 12.5);
  const out = {
    format: "loftwright-pupil/1",
    name: "An invented pupil",
    handed: one("right", "left"),
    goal: one("carry", "total"),
    delivery: {
      club_speed_mph: speed,
      attack_deg: attack,
      dynamic_loft_deg: between(loft - 1 + 0.4 * attack, loft + 5 + 0.4 * attack),
      path_deg: between(-5, 5),
      face_deg: between(-3, 3),
      toe_mm: between(-12, 12),
      high_mm: between(-8, 8),
    },
    club: { loft_deg: loft },
    reach: { attack_deg: [between(attack - 3, attack), between(attack, Math.min(attack + 6, 10))] },
  };
  if (often(0.6)) out.lofts_on_offer_deg = [9, 10.5, 12, 13.5].filter(() => often(0.8));
  if (out.lofts_on_offer_deg?.length === 0) delete out.lofts_on_offer_deg;
  if (often(0.3)) out.limits = one({ spin_rpm: [null, 3200] }, { landing_deg: [30, null] }, { spin_rpm: [1800, null] });
  if (often(0.4)) out.conditions = { altitude_m: between(0, 1800, 0), temperature_c: between(2, 35, 0), turf: one("soft", "medium", "firm") };
  return out;
}

const differing = [];
let exact = 0;
const verdicts = {};
for (let i = 0; i < count; ++i) {
  const files = { "pupil.json": JSON.stringify(pupil(), null, 2) };
  const args = ["advise", "pupil.json", "--json"];
  const a = native(args, files);
  const b = desk(args, files);
  const verdict = (answer) => (answer.code < 2 ? JSON.parse(answer.out).verdict.sentence : answer.err);
  if (a.code > 1) throw new Error(`pupil ${i} is refused: ${a.err}\n${files["pupil.json"]}`);
  verdicts[JSON.parse(a.out).verdict.lever] = (verdicts[JSON.parse(a.out).verdict.lever] ?? 0) + 1;
  if (difference(a.out, b.out) === null) ++exact;
  if (a.code !== b.code || verdict(a) !== verdict(b)) differing.push(`pupil ${i}: ${verdict(a)}\n    on the desk: ${verdict(b)}\n    ${files["pupil.json"]}`);
}
for (const one of differing) console.log(one);
console.log(`${count} pupils (${JSON.stringify(verdicts)}): ${differing.length} other verdicts; all numbers the same for ${exact}`);
process.exit(differing.length === 0 ? 0 : 1);
