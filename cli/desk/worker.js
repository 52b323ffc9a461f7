// The worker that computes, so that the page never waits. First message { module }; then calls { id, args, files, options }, each
// answered by { id, answer } or { id, error }.
import { open } from "./loader.js";

let module;
let run;

self.onmessage = ({ data }) => {
  if (data.module) {
    module = data.module;
    run = open(module);
    return;
  }
  const { id, args, files, options } = data;
  try {
    const answer = run(args, files, options);
    self.postMessage({ id, answer }, Object.values(answer.files).map((bytes) => bytes.buffer));
  } catch (error) {
    run = open(module);  // what the failed one left in its memory is not to be trusted
    self.postMessage({ id, error: String(error) });
  }
};
