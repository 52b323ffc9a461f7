// The answer, live: each edit ends what is being computed and asks anew. The old answer stays, greyed, until the new one is there.
import { Stopped } from "../desk.js";
import { academyKept } from "./academy.js";
import { button, download, fileName, fill, h, say } from "./dom.js";
import { printPage, showPage } from "./sheet.js";
import { makeSliders } from "./sliders.js";
import { filesOf, nameOf, remembered } from "./store.js";
import { errorWords } from "./words.js";

const PAUSE = 120;  // [ms] after the last key

export function makeAnswer(desk) {
  const verdict = h("p", { class: "verdict" });
  const state = h("p", { class: "state" });
  const assumed = h("ul");
  const assumptions = h("details", { class: "fold", hidden: true }, h("summary", {}, "Assumed, since it was left out"), assumed);
  const sliders = makeSliders(desk);
  const page = h("div", { class: "page-host" }, sliders.root);
  const save = button("Save the page to take home", () => download(`${fileName(nameOf(desk.pupil))}.html`, html, "text/html"), { class: "main" });
  const print = button("Print it", () => printPage(html));
  // The lesson ladder, on the sheet and on the page to take home, once it was asked for.
  const ladder = button("The lessons, step by step", () => { remembered.write({ ladder: !remembered.read().ladder }); again(); });
  const steps = h("p", { class: "about steps" });
  const tools = h("div", { class: "row", hidden: true }, save, print, ladder);
  const root = h("section", { class: "answer", "aria-labelledby": "answer-head" },
                 h("h2", { id: "answer-head", tabindex: "-1" }, "The answer"), h("div", { class: "said" }, verdict, state), tools, steps, assumptions, page);
  const listeners = [];
  let html = "";
  let timer;
  let edit = 0;

  // `fault`: what keeps the form from an answer, { words, lead }. What is greyed is neither saved nor printed.
  const tell = (text, stale, fault) => {
    state.textContent = text;
    root.classList.toggle("stale", stale);
    save.disabled = print.disabled = stale;
    listeners.forEach((act) => act(fault?.words ?? (verdict.textContent || text), stale, fault));
  };

  async function ask() {
    const { pupil, program, units } = desk;
    const { ladder: climbs } = remembered.read();
    const academy = academyKept();
    ladder.textContent = climbs ? "Leave the lessons out" : "The lessons, step by step";
    try {
      const answer = await program.answering.run(["advise", "pupil.json", "--json", "--quiet", "--units", units, "--html", "page.html", ...(climbs ? ["--ladder"] : []),
        ...(academy ? ["--academy", "academy.json"] : [])], { ...filesOf(pupil), ...(academy ? { "academy.json": academy } : {}) });
      if (answer.code > 1) return tell(errorWords(answer.err), html !== "");
      const said = JSON.parse(answer.out);
      html = new TextDecoder().decode(answer.files["page.html"]);
      verdict.textContent = said.verdict.sentence;
      showPage(page, html, { without: "header, .verdict" });
      assumed.replaceChildren(...said.assumed.map((one) => h("li", {}, one)));
      assumptions.hidden = said.assumed.length === 0;
      tools.hidden = false;
      fill(steps, climbs && [said.ladder_sentence, said.ladder.length > 0 && [" ", button("To the steps", () => page.shadowRoot.querySelector("#ladder-part").scrollIntoView())]]);
      sliders.from(said, pupil.document);
      tell("", false);
      say(said.verdict.sentence);
      performance.mark("loftwright-answer");
    } catch (error) {
      if (!(error instanceof Stopped)) tell(`The program stopped: ${error.message}. It starts afresh with the next edit.`, html !== "");
    }
  }

  const again = () => {
    desk.program.answering.stop();
    tell("Working it out anew\u2026", true);
    ask();
  };

  return {
    root,
    onVerdict: (act) => listeners.push(act),
    // At every edit: what is shown is the answer to something else.
    edited() {
      performance.mark("loftwright-edit");
      edit = performance.now();
      clearTimeout(timer);
      desk.program.answering.stop();
      desk.program.answering.ready();
      tell(html === "" ? "" : "Working it out anew\u2026", html !== "");
    },
    // `fault`: what `check` found wrong with the document as it stands now.
    renew(fault) {
      if (fault) {
        tell(html === "" ? fault.words : `${fault.words.replace(/\.?$/, ".")} Greyed: the answer before that, which is neither saved nor printed.`, html !== "", fault);
        return;
      }
      tell(html === "" ? "Working it out\u2026" : "Working it out anew\u2026", html !== "");
      timer = setTimeout(ask, html === "" ? 0 : PAUSE - (performance.now() - edit));
    },
    end() {
      clearTimeout(timer);
      desk.program.answering.stop();
    },
  };
}
