// A page of the program's within the desk: its style, pictures and tables in a shadow tree, its scripts left out, and the
// host's children in the place of its sliders. Its colours are names that the desk's own looks define, so that it follows them.
const OWN = `
:host { display: block; font-size: 1rem; line-height: 1.5; font-family: var(--serif); container: sheet / inline-size; overflow-wrap: break-word; }
.page { max-width: none; margin: 0; padding: 0; }
.pair { grid-template-columns: minmax(0, 1fr); }
.try { grid-template-columns: minmax(0, 1fr); }
.bigs { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(10rem, 100%), 1fr)); gap: 0 1.2rem; }
.big { display: grid; grid-template-rows: subgrid; grid-row: span 2; margin-bottom: 0.8rem; }
.big dt { align-self: end; }
.big :is(dt, span) { font-size: 0.86rem; white-space: normal; }
.big dd { white-space: nowrap; }
@container sheet (max-width: 30rem) { .big b { font-size: 2.3rem; } }
@container sheet (min-width: 50rem) { .pair { grid-template-columns: 1fr 1fr; } }
summary { min-height: 44px; display: list-item; align-content: center; }
footer { padding: 1.5rem 0 0; max-width: none; }
@container sheet (max-width: 38rem) {
  .rows, .rows :is(tbody, tr, th, td, caption) { display: block; width: 100%; }
  .rows thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .rows tr { border-top: 1px solid var(--rule); padding: 0.5rem 0; }
  .rows tbody :is(th, td) { border: 0; padding: 0.05rem 0; text-align: left; white-space: normal; }
  .rows tbody td { display: flex; justify-content: space-between; gap: 1rem; }
  .rows td:empty { display: none; }
  .rows tbody th:not([data-head=""])::before { content: attr(data-head) " "; }
  .rows caption { padding-top: 0.8rem; }
  .rows th a { display: inline-block; min-height: 44px; align-content: center; }
  .rows td::before { content: attr(data-head); color: var(--soft); }
}
@media (prefers-reduced-motion: no-preference) { :host { transition: opacity 0.15s; } }
`;

// A table whose rows become small lists of their own where the sheet is narrow, as rowsTable makes them.
function stack(table) {
  const heads = [...(table.tHead?.rows[0]?.cells ?? [])].map((one) => one.textContent);
  const grid = heads.slice(1).every((head) => head === "" || Number.isFinite(Number(head)));  // of one quantity over two others
  if (table.tHead?.rows.length !== 1 || table.querySelector("[colspan], [rowspan]") || heads.length < 4 || grid) return;
  table.classList.add("rows");
  table.setAttribute("role", "table");
  for (const part of [table.tHead, ...table.tBodies]) part.setAttribute("role", "rowgroup");
  for (const row of table.rows) {
    row.setAttribute("role", "row");
    [...row.cells].forEach((cell, i) => {
      cell.setAttribute("role", cell.scope === "col" ? "columnheader" : cell.scope === "row" ? "rowheader" : "cell");
      cell.setAttribute("data-head", heads[i]);
    });
  }
}

export function showPage(host, html, { without = "" } = {}) {
  const page = new DOMParser().parseFromString(html, "text/html");
  page.querySelector("#try-part")?.replaceWith(page.createElement("slot"));
  page.querySelectorAll(".wide > table").forEach(stack);
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
