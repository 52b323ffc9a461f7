// Elements in one line: h("p", { class: "note" }, "text", element). Properties that begin with "on" are listeners.
export function h(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "value" || key === "checked" || key === "disabled") element[key] = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.flat(Infinity).filter((child) => child !== undefined && child !== null && child !== false));
  return element;
}

// Replaces what an element holds; what is false or not there is left out, as in `h`.
export const fill = (element, ...children) => element.replaceChildren(...h("div", {}, ...children).childNodes);

export const byId = (id) => document.getElementById(id);

let ids = 0;
export const newId = (word) => `${word}-${++ids}`;

// For those who listen: said once, after the work is done.
export function say(text) {
  const place = byId("said");
  if (place.textContent !== text) place.textContent = text;
}

// What cannot be missed, at the head of the sheet; an empty text takes it away.
export function warn(text, action) {
  const parts = text ? [h("p", {}, text, action && " ", action), h("button", { type: "button", onclick: () => warn("") }, "Put away")] : [];
  byId("banner").replaceChildren(...parts);
}

export const button = (text, onclick, properties = {}) => h("button", { type: "button", onclick, ...properties }, text);

// Turns the sign of a field, for keypads without a minus.
export const signButton = (input, title, properties = {}) => button("\u00b1", () => {
  const text = input.value.trim();
  input.value = /^[-\u2212]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, "")}`;
  input.dispatchEvent(new Event("input"));
  input.focus();
}, { class: "sign", "aria-label": `Plus or minus: ${title}`, ...properties });

// One file a tap: browsers let only the first of two arrive.
export function download(name, bytes, type) {
  const url = URL.createObjectURL(new Blob([bytes], { type }));
  const link = h("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

// A name that any file system takes.
export const fileName = (text) => text.normalize("NFKD").replace(/[^\w-]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase().slice(0, 60) || "pupil";

// A place to pick files or drop them on.
export function picker({ label, accept, multiple, onfiles }) {
  const input = h("input", { type: "file", class: "unseen", accept, multiple, onchange: () => {
    const files = [...input.files];
    input.value = "";
    if (files.length) onfiles(files);
  } });
  const box = h("label", { class: "drop" }, input, h("span", {}, label));
  const over = (yes) => (event) => { event.preventDefault(); box.classList.toggle("over", yes); };
  box.addEventListener("dragover", over(true));
  box.addEventListener("dragleave", over(false));
  box.addEventListener("drop", (event) => {
    over(false)(event);
    event.stopPropagation();
    const files = [...event.dataTransfer.files];
    if (files.length) onfiles(files);
  });
  return box;
}
