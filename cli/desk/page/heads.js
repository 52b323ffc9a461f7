// Drivers side by side: lists of the pupil with shots from several heads, which goes furthest, and can they be told apart.
import { fill, h } from "./dom.js";
import { labelled, makePaper, pupilOptions } from "./run.js";
import { filesOf } from "./store.js";

const IN_HAND = "The driver in hand";

export function makeHeads(desk) {
  const { pupil } = desk;
  const heading = h("h2", { class: "unseen" }, "Drivers side by side");
  const about = h("p", { class: "about" }, "Shots of two or more drivers on one day: in one list with a column that names the club, or in a list for each.");
  if (pupil.lists.length === 0) return h("div", {}, heading, about, h("p", {}, "There is no list of shots yet: add one under Shots."));
  const ticked = () => ticks.filter((one) => one.checked).map((one) => one.value);
  const files = () => filesOf(pupil, { everyClub: true, delivery: ticked()[0] });
  const paper = makePaper(desk, "heads", { files, titles: { "in-hand": IN_HAND } });
  const inHand = h("select", {});
  const among = (names) => fill(inHand, h("option", { value: "" }, "not said"), names.map((name) => h("option", { value: name, selected: name === inHand.value }, name)));
  // As they were when this sheet was looked at last, unless a list is new or gone.
  const all = pupil.lists.map((list) => list.name).join("\n");
  const before = desk.typed.heads?.all === all ? desk.typed.heads : undefined;
  const ticks = [...pupil.lists].reverse().map((list, i) => h("input", { type: "checkbox", value: list.name, checked: before ? before.ticked.includes(list.name) : i === 0 }));
  let latest = 0;
  const ask = async () => {
    const mine = ++latest;
    const lists = ticked();
    desk.typed.heads = { all, ticked: lists, inHand: inHand.value };
    if (lists.length === 0) return paper.clear("Tick one list or more.");
    const { options, note } = await pupilOptions(desk, files());
    if (mine !== latest) return;
    const answer = await paper.show(["heads", ...lists, "--json", ...options, ...(inHand.value ? ["--in-hand", inHand.value] : [])], ({ out }) => JSON.parse(out).sentence, "header, .verdict", note);
    if (answer) among(JSON.parse(answer.out).heads.map((one) => one.head));
  };
  for (const one of ticks) one.onchange = () => { inHand.value = ""; ask(); };
  inHand.onchange = ask;
  among(before?.inHand ? [before.inHand] : []);
  inHand.value = before?.inHand ?? "";
  ask();
  return h("div", {}, heading, about, h("div", { role: "group", "aria-label": "Lists" }, ticks.map((box) => h("label", { class: "tick" }, box, h("span", {}, box.value)))),
    h("div", { class: "ask" }, labelled(IN_HAND, inHand)), paper.root);
}
