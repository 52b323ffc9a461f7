// Before and after: two lists of the pupil, whether anything changed, and which change made which yards.
import { fill, h } from "./dom.js";
import { numberOr } from "./form.js";
import { chooseClub, chooseList, labelled, makePaper, ownLists, pupilOptions, staying } from "./run.js";
import { filesOf } from "./store.js";

const AFTER = "Loft of the driver after";

export function makeLesson(desk) {
  const { pupil } = desk;
  if (pupil.lists.length < 2) {
    return h("div", {}, h("h2", { class: "unseen" }, "Before and after"), h("p", {}, `This takes two lists of shots, one from before the lesson and one from after. There ${pupil.lists.length === 1 ? "is one" : "are none"} yet: add ${pupil.lists.length === 1 ? "the other" : "them"} under Shots.`));
  }
  const files = () => filesOf(pupil, { delivery: before.value });
  const paper = makePaper(desk, "before-and-after", { files, titles: { "club-loft": AFTER, shots: "The list" } });
  const [last, earlier = pupil.lists.find((list) => list !== last)] = [...ownLists(pupil)].reverse();
  const before = chooseList(pupil, earlier.name);
  const after = chooseList(pupil, last.name);
  const loft = staying(desk, "loft-after", h("input", { type: "text", inputmode: "decimal", autocomplete: "off" }));
  let timer;
  const ask = async () => {
    const changed = loft.value.trim() ? ["--changed", `club-loft=${numberOr(loft.value)}deg`] : [];
    const { options, note } = await pupilOptions(desk, files());
    paper.show(["compare", before.value, after.value, "--json", ...changed, ...options], (answer) => JSON.parse(answer.out).verdict.sentence, "header, .verdict", note);
  };
  const clubs = h("div");
  const choose = () => fill(clubs, [...new Set([before.value, after.value])].map((name) => chooseClub(desk, pupil.lists.find((one) => one.name === name), () => { choose(); ask(); })));
  for (const one of [before, after]) one.onchange = () => { choose(); ask(); };
  loft.oninput = () => { clearTimeout(timer); timer = setTimeout(ask, 250); };
  choose();
  ask();
  return h("div", {}, h("h2", { class: "unseen" }, "Before and after"),
    h("div", { class: "ask" }, labelled("Before", before), labelled("After", after), labelled(`${AFTER}, deg, if another`, loft)), clubs, paper.root);
}
