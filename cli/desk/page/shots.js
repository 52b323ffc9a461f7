// Shot lists: picked, dropped, pasted or typed; what the program makes of each; outliers out and in by touch; on to the pupil.
import { button, download, fill, h, newId, picker, signButton, warn } from "./dom.js";
import { numberOr } from "./form.js";
import { chooseClub, labelled, staying } from "./run.js";
import { sure } from "./pupils.js";
import { TEXT_ROWS, asBytes, bytesOf, uniqueName } from "./store.js";
import { deletedHere, wasDeleted } from "./undo.js";
import { errorWords } from "./words.js";

const LARGEST = 8 << 20;  // [byte], what the program reads

// The columns of a list typed by hand, as heads that the program knows.
const COLUMNS = {
  yards: ["Club Speed (mph)", "Attack (deg)", "Dynamic Loft (deg)", "Path (deg)", "Face (deg)", "Ball Speed (mph)", "Launch (deg)", "Spin (rpm)", "Carry (yd)"],
  metres: ["Club Speed (m/s)", "Attack (deg)", "Dynamic Loft (deg)", "Path (deg)", "Face (deg)", "Ball Speed (m/s)", "Launch (deg)", "Spin (rpm)", "Carry (m)"],
};
// What a column that the program does not know may be said to hold: a head that it knows.
const SPEEDS = ["mph", "km/h", "m/s"], ANGLES = ["deg"], LENGTHS = ["yd", "m"], STRIKES = ["mm", "in"];
const HEADS = [["Club Speed", SPEEDS], ["Attack", ANGLES], ["Dynamic Loft", ANGLES], ["Path", ANGLES], ["Face", ANGLES], ["Toe", STRIKES], ["High", STRIKES], ["Spin Loft", ANGLES],
               ["Ball Speed", SPEEDS], ["Launch", ANGLES], ["Azimuth", ANGLES], ["Spin", ["rpm"]], ["Tilt", ANGLES], ["Carry", LENGTHS], ["Total", LENGTHS], ["Side", LENGTHS],
               ["Apex", ["ft", "m"]], ["Landing", ANGLES]].flatMap(([head, units]) => units.map((unit) => `${head} (${unit})`));
const SIGNED = /^(Attack|Path|Face) /;
// Of a typed list: its first line holds the heads.
const lineOfShot = (shot) => shot + 1;
const shotOfLine = (line) => line - 1;
const listOf = (document) => (typeof document.shots === "string" ? document.shots : document.shots?.file);

// A list in place of the delivery in the document, and the other way round; `shots` as the document names it.
function takeAsDelivery({ document, aside }, shots) {
  for (const key of ["delivery", "launch", "measured_shots"]) {
    if (key in document) aside[key] = document[key];
    delete document[key];
  }
  document.shots = shots;
}
export function giveDeliveryBack(pupil) {
  delete pupil.document.shots;
  Object.assign(pupil.document, pupil.aside);
  pupil.aside = {};
}

// A deleted list again in its place; the pupil may have been opened anew since.
function putBack({ pupil, keep }, list, place, shots) {
  const name = uniqueName(pupil, list.name, "list.csv");
  pupil.lists.splice(place, 0, { ...list, name });
  if (shots && !pupil.document.shots && name === list.name) takeAsDelivery(pupil, shots);
  return keep();
}

export function makeShots(desk) {
  const { pupil, program, numbers } = desk;
  const lists = h("div", { class: "lists" });
  const keep = () => desk.keep();
  const draw = () => fill(lists, [...pupil.lists].reverse().map((list, i) => drawList(list, i === 0)), deletedHere(pupil.id, draw));

  function add(name, bytes, rows) {
    if (bytes.length > LARGEST) return warn(`${name} is larger than 8 MiB, which is no list of shots.`);
    if (desk.readOnly) return warn("This pupil is open in another tab: the list was not taken.");
    const list = { name: uniqueName(pupil, name, "list.csv"), bytes, out: {}, rows, added: Date.now() };
    pupil.lists.push(list);
    keep();
    draw();
    return list;
  }
  async function take(files) {
    for (const file of files) add(file.name, asBytes(await file.arrayBuffer()));
  }

  // A list pasted as text, from a message or a spreadsheet.
  const pasted = staying(desk, "pasted", h("textarea", { rows: 4, id: newId("paste"), spellcheck: "false" }));
  const paste = h("details", { class: "fold", open: pasted.value !== "" }, h("summary", {}, "Paste a list"),
    h("label", { for: pasted.id, class: "about" }, "A row of column heads, then a row for each shot, as copied from a table or a message."), pasted,
    h("div", { class: "row" }, button("Take it as a list", () => {
      if (pasted.value.trim() === "") return;
      add(`pasted-${new Date().toISOString().slice(0, 10)}.csv`, new TextEncoder().encode(pasted.value));
      pasted.value = "";
      pasted.dispatchEvent(new Event("input"));
    })));

  const typed = button("Type one in", () => {
    const heads = COLUMNS[desk.units];
    const list = add(`typed-${new Date().toISOString().slice(0, 10)}.csv`, new TextEncoder().encode(`${heads.join(";")}\n`), [heads]);
    if (list) lists.querySelector(".grid-table input")?.focus();
  });

  // A grid of cells; each key is kept. Decimal comma and point may stand side by side here; in a list they may not.
  function grid(list, renew) {
    const body = h("tbody");
    const heads = list.rows[0];
    // A row that is empty stays a line, so that a shot's line is that of its row, whatever stands in the others.
    const store = () => {
      list.bytes = new TextEncoder().encode(Array.from(list.rows, (row) => (row ?? []).map((cell) => `"${String(numberOr(cell)).replaceAll('"', '""')}"`).join(";")).join("\n") + "\n");
      keep();
      renew();
    };
    const cellAt = (i, head, c) => {
      const title = `Shot ${i}, ${head}`;
      const input = h("input", {
        type: "text", inputmode: "decimal", autocomplete: "off", "aria-label": title, value: list.rows[i]?.[c] ?? "",
        oninput: () => {
          (list.rows[i] ??= heads.map(() => ""))[c] = input.value;
          delete list.out[lineOfShot(i)];  // it was another shot that was taken out
          if (i === body.rows.length) body.append(rowAt(i + 1));
          store();
        },
        onkeydown: (event) => {
          const next = { ArrowDown: i, Enter: i, ArrowUp: i - 2 }[event.key];
          if (next === undefined) return;
          event.preventDefault();
          body.rows[next]?.cells[c + 1].querySelector("input").focus();
        },
      });
      // Who has a minus on the keyboard need not walk over the buttons.
      return h("td", {}, h("div", { class: "entry" }, SIGNED.test(head) && signButton(input, title, { tabindex: "-1" }), input));
    };
    const rowAt = (i) => h("tr", {}, h("th", { scope: "row" }, String(i)), heads.map((head, c) => cellAt(i, head, c)));
    for (let i = 1; i <= Math.max(list.rows.length, 4); ++i) body.append(rowAt(i));
    return h("div", { class: "wide grid-table" }, h("table", {}, h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "Shot"), heads.map((head) => h("th", { scope: "col" }, head.replace("Dynamic", "Delivered"))))), body),
             h("p", { class: "about" }, "Leave a cell empty where nothing was measured; a minus, by key or by ±, for an attack downwards and for left of the target."));
  }

  function drawList(list, open) {
    const report = h("div");
    const used = listOf(pupil.document) === list.name;
    const lineOf = (line) => new TextDecoder().decode(list.bytes).split(/\r\n|\n|\r/)[line - 1] ?? "";
    // A shot as the coach knows it: the line of a file, or the row of the grid and what stands in it.
    const named = (line) => (list.rows ? `Shot ${shotOfLine(line)}` : `Line ${line}`);
    const told = (line) => (list.rows ? list.rows[0].map((head, c) => {
      const cell = list.rows[shotOfLine(line)]?.[c]?.trim();
      return cell && head.replace("Dynamic", "Delivered").replace(/ \((.*)\)$/, ` ${cell} $1`).toLowerCase();
    }).filter(Boolean).join(", ") : lineOf(line));
    const inWords = (text) => (list.rows ? errorWords(text).replace(/\bline (\d+)/g, (_, line) => `shot ${shotOfLine(line)}`) : errorWords(text));
    let asked = 0;
    const read = (bytes) => program.quick.run(["shots", list.name, "--json", "--handed", pupil.document.handed ?? "right", "--units", desk.units], { [list.name]: bytes });
    async function renew() {
      const mine = ++asked;
      if (!list.clubs && !list.rows) {  // of the list as it is, whatever is taken out
        const whole = await read(bytesOf({ ...list, out: {} }));
        if (whole.code <= 1) { list.clubs = JSON.parse(whole.out).clubs; keep(); }
      }
      const answer = await read(bytesOf(list));
      if (mine !== asked) return;
      if (answer.code > 1) {
        const nothing = list.rows?.slice(1).every((row) => !row?.some((cell) => cell.trim()));
        // The heads are in the row with most words.
        const rows = Array.from({ length: TEXT_ROWS }, (_, i) => lineOf(i + 1)).filter((line) => !line.startsWith("#"))
          .map((line) => line.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, "")).filter((cell) => /\p{L}/u.test(cell)));
        const row = rows.reduce((most, one) => (one.length > most.length ? one : most));
        fill(report, h("p", { class: nothing ? "about" : "finding error" }, nothing ? "No shots yet." : inWords(answer.err)), !nothing && columns(row.filter((head) => !(head in (list.heads ?? {}))), true));
        into.disabled = true;
        return;
      }
      drawReport(JSON.parse(answer.out));
    }
    // The columns that were not read, each with what it may be said to hold.
    const columns = (unread, asked) => {
      const heads = [...Object.keys(list.heads ?? {}), ...unread];
      if (heads.length === 0 || list.rows) return undefined;
      return h("details", { class: "fold", open: Object.keys(list.heads ?? {}).length > 0 || asked }, h("summary", {}, "Columns that were not read: what do they hold?"),
        h("div", { class: "ask" }, heads.map((head) => labelled(head, h("select", { onchange: (event) => {
          list.heads ??= {};
          if (event.target.value) list.heads[head] = event.target.value;
          else delete list.heads[head];
          keep();
          renew();
        } }, h("option", { value: "" }, "not used"), HEADS.map((word) => h("option", { value: word, selected: list.heads?.[head] === word }, word.replace("Dynamic", "Delivered"))))))));
    };
    const tick = (line, why, isIn, extra) => {
      const box = h("input", { type: "checkbox", checked: isIn, onchange: () => {
        if (box.checked) delete list.out[line];
        else list.out[line] = why;
        keep();
        renew();
      } });
      return h("label", { class: "tick" }, box, h("span", {}, `${named(line)}: ${why} `, h("code", {}, extra)));
    };
    function drawReport(said) {
      into.disabled = used || !said.pupil;
      const outs = Object.entries(list.out ?? {});
      fill(report,
        h("p", {}, `${said.counted} shots counted${said.set_aside.length ? `, ${said.set_aside.length} set aside` : ""}${outs.length ? `, ${outs.length} taken out by you` : ""}${list.club ? `, of ${list.club} alone` : ""}.`),
        chooseClub(desk, list, renew),
        said.odd.length + outs.length > 0 && h("div", { role: "group", "aria-label": "Outliers" }, h("h3", {}, "Far out from the others: do they count?"),
          outs.map(([line, why]) => tick(line, why, false, told(line))),
          said.odd.map((one) => tick(one.line, `${one.readings.map(numbers.title).join(", ")} far out`, true, told(one.line)))),
        said.set_aside.length > 0 && h("div", {}, h("h3", {}, "Set aside: these cannot be shots"),
          h("ul", {}, said.set_aside.map((one) => h("li", {}, `${named(one.line)}: ${inWords(one.reason)}`)))),
        h("div", { class: "wide", tabindex: "0", role: "group", "aria-label": `What ${list.name} measured` }, h("table", {}, h("caption", { class: "unseen" }, "What was measured"),
          h("thead", {}, h("tr", {}, ["", "shots", "mean", "error", "scatter"].map((head) => h(head ? "th" : "td", head ? { scope: "col" } : {}, head)))),
          h("tbody", {}, said.readings.map((one) => h("tr", {}, h("th", { scope: "row" }, numbers.title(one.reading)), h("td", {}, String(one.count)),
            [numbers.shown(desk.units, one.reading, one.mean), ...[one.standard_error, one.sd].map((value) => numbers.difference(desk.units, one.reading, value, false))].map((text) => h("td", {}, text))))))),
        h("p", { class: "about" }, "Error: how well the mean is known. Scatter: from shot to shot, one standard deviation."),
        !said.pupil && h("p", { class: "finding warning" }, "It gives no delivery yet. That takes club speed, attack and delivered loft, or ball speed, launch and spin."),
        said.notes.length > 0 && h("details", { class: "fold" }, h("summary", {}, "Notes"), h("ul", {}, said.notes.map((one) => h("li", {}, `${one.line ? `${named(one.line)}: ` : ""}${inWords(one.message)}`)))),
        columns(said.unused, !said.pupil || said.notes.some((one) => one.message.includes("--map"))),
        h("details", { class: "fold" }, h("summary", {}, "What each column was read as"), h("ul", {}, said.columns.map((one) => h("li", {}, `${one.head}: ${numbers.title(one.reading)}${one.unit ? `, ${one.unit}` : ""}${one.reversed ? ", signs turned round" : ""}`)))),
      );
    }
    const into = button(used ? "This list is the pupil\u2019s delivery" : "Take it as the pupil\u2019s delivery", () => {
      takeAsDelivery(pupil, list.name);
      keep();
      desk.show("form");
    }, { class: used ? "keeps" : "main keeps", disabled: used });
    renew();
    return h("details", { class: "list fold", open: open || used }, h("summary", {}, list.name, used && h("small", {}, " the pupil\u2019s delivery")),
      list.rows && grid(list, renew), report,
      h("div", { class: "row" }, into, button("Save the list", () => download(list.name, list.bytes, "text/csv")),
        button("Delete", (event) => sure(event.target, list.name, () => {
          const place = pupil.lists.indexOf(list);
          pupil.lists.splice(place, 1);
          const shots = listOf(pupil.document) === list.name && pupil.document.shots;
          if (shots) giveDeliveryBack(pupil);
          keep();
          wasDeleted(pupil.id, list.name, () => putBack(desk, list, place, shots), draw);
        }), { class: "keeps", "aria-label": `Delete: ${list.name}` })));
  }

  draw();
  const root = h("div", {}, h("h2", { class: "unseen" }, "Shots"), h("p", { class: "about" }, "A list as any device exports it (CSV), or one you type: club speed, attack and delivered loft, or ball speed, launch and spin, or all of them."),
    h("div", { class: "row" }, picker({ label: "Pick or drop a list of shots", accept: ".csv,.txt,.tsv,text/csv,text/plain", multiple: true, onfiles: take }), typed), paste, lists);
  // Anywhere on this sheet, outside of a field, a paste is a list.
  root.addEventListener("paste", (event) => {
    if (event.target.closest("textarea, input")) return;
    const text = event.clipboardData.getData("text/plain");
    if (text.trim() !== "") { event.preventDefault(); add("pasted.csv", new TextEncoder().encode(text)); }
  });
  return { root, take };
}
