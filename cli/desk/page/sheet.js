// A page of the program's within the desk: its style, pictures and tables in a shadow tree, its scripts left out, and the
// host's children in the place of its sliders. Its colours are names that the desk's own looks define, so that it follows them.
const OWN = `
:host { display: block; font-size: 1rem; line-height: 1.5; font-family: var(--serif); container: sheet / inline-size; overflow-wrap: break-word; }
.page { max-width: none; margin: 0; padding: 0; }
.pair { grid-template-columns: minmax(0, 1fr); }
.try { grid-template-columns: minmax(0, 1fr); }
@container sheet (min-width: 50rem) { .pair { grid-template-columns: 1fr 1fr; } }
summary { min-height: 44px; display: list-item; align-content: center; }
footer { padding: 1.5rem 0 0; max-width: none; }
@media (prefers-reduced-motion: no-preference) { :host { transition: opacity 0.15s; } }
`;

export function showPage(host, html, { without = "" } = {}) {
  const page = new DOMParser().parseFromString(html, "text/html");
  page.querySelector("#try-part")?.replaceWith(page.createElement("slot"));
  page.querySelectorAll(`script, .skip${without && `, ${without}`}`).forEach((one) => one.remove());
  const open = new Set([...(host.shadowRoot?.querySelectorAll("details[open]") ?? [])].map((one) => one.querySelector("summary").textContent));
  page.querySelectorAll("details").forEach((one) => { one.open = open.has(one.querySelector("summary")?.textContent); });
  const root = host.shadowRoot ?? host.attachShadow({ mode: "open" });
  const style = document.createElement("style");
  style.textContent = [...page.querySelectorAll("style")].map((one) => one.textContent).join("\n") + OWN;
  const body = document.createElement("div");
  body.className = "page";
  body.append(...page.querySelector("main").childNodes);
  const foot = page.querySelector("body > footer");
  root.replaceChildren(style, body, ...(foot ? [foot] : []));
}

// Prints a page as it stands, from a frame of its own that no script runs in.
export function printPage(html) {
  const frame = document.createElement("iframe");
  frame.className = "unseen";
  frame.title = "The page to print";
  frame.srcdoc = html.replace(/<script(?! type="application)[\s\S]*?<\/script>/g, "");
  frame.onload = () => {
    frame.contentWindow.onafterprint = () => frame.remove();
    frame.contentWindow.print();
  };
  document.body.append(frame);
}
