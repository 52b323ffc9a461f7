// The program out of the page: compiled once, in two workers. `answering` does what takes long and is ended by the next edit;
// `quick` stays warm for checks and for the sliders.
import { start } from "../desk.js";
import { byId } from "./dom.js";
import { unpacked } from "./packed.js";

// What an element of the page holds: bytes, zipped and packed.
export async function contentOf(id) {
  const { textContent, dataset } = byId(id);
  const zipped = new Blob([unpacked(textContent, Number(dataset.size))]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(zipped).arrayBuffer();
}

export async function openProgram() {
  const module = await WebAssembly.compile(await contentOf("program"));
  byId("program").remove();
  const url = URL.createObjectURL(new Blob([byId("worker").textContent], { type: "text/javascript" }));
  const newWorker = () => new Worker(url);
  return { answering: start(module, newWorker), quick: start(module, newWorker) };
}

export const tooOld = () =>
  typeof WebAssembly !== "object" || typeof DecompressionStream !== "function" || !WebAssembly.Tag || !("locks" in navigator);
