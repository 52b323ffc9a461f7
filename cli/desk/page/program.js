// The program out of the page: compiled once, in two workers. `answering` does what takes long and is ended by the next edit;
// `quick` stays warm for checks and for the sliders.
import { start } from "../desk.js";
import { byId } from "./dom.js";

export async function unpacked(base64) {
  const bytes = Uint8Array.fromBase64 ? Uint8Array.fromBase64(base64) : Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}

export async function openProgram() {
  const module = await WebAssembly.compile(await unpacked(byId("program").textContent.trim()));
  byId("program").remove();
  const url = URL.createObjectURL(new Blob([byId("worker").textContent], { type: "text/javascript" }));
  const newWorker = () => new Worker(url);
  return { answering: start(module, newWorker), quick: start(module, newWorker) };
}

export const tooOld = () =>
  typeof WebAssembly !== "object" || typeof DecompressionStream !== "function" || !WebAssembly.Tag || !("locks" in navigator);
