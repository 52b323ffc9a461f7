// The worker that computes, so that the page never waits. First message { module }; then calls { id, args, files, options }, each
// answered by { id, answer } or { id, error }.
import { open } from "./loader.js";

const MOST_REFUSED = 1000;  // a call that ends by an exception leaves some memory lost
let module;
let run;
let refused = 0;

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
    refused += answer.code !== 0;
  } catch (error) {
    self.postMessage({ id, error: String(error) });
    refused = MOST_REFUSED;  // what it left in its memory is not to be trusted
  }
  if (refused >= MOST_REFUSED) {
    run = open(module);
    refused = 0;
  }
};
