// What was deleted since the desk was opened: each can be taken back, the last first, on the sheet where it was deleted.
import { button, h, warn } from "./dom.js";

const deleted = [];  // { where, what, back }: where is "pupils", or the id of the pupil whose list it was
let offered;         // the button in the banner

const lastAt = (where) => deleted.filter((one) => one.where === where).at(-1);

const takeBack = (words, where, redraw) => button(words, async () => {
  const [last] = deleted.splice(deleted.indexOf(lastAt(where)), 1);
  await last.back();
  redraw();
  offer(where, redraw);
});

function offer(where, redraw) {
  const last = lastAt(where);
  offered = last && takeBack("Take it back", where, redraw);
  warn(last ? `${last.what} is deleted.` : "", offered);
}

// After a deletion. `redraw` draws the sheet anew, and the line below with it.
export function wasDeleted(where, what, back, redraw) {
  deleted.push({ where, what, back });
  redraw();
  offer(where, redraw);
}

// When another sheet is drawn.
export function withdrawOffer() {
  if (offered?.isConnected) warn("");
}

// The line of a sheet for what the banner has ceased to offer.
export function deletedHere(where, redraw) {
  const all = deleted.filter((one) => one.where === where);
  return all.length > 0 && h("p", { class: "about row" }, h("span", {}, `Deleted since the desk was opened: ${all.map(({ what }) => what).join(", ")}.`),
                             takeBack(`Take ${all.at(-1).what} back`, where, redraw));
}
