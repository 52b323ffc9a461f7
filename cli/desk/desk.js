// The program for a page: loftwright.run(args, files, options) in a worker, as loader.js's `run`, but a promise.
//   const loftwright = start(await WebAssembly.compile(bytes), () => new Worker(url, { type: "module" }));
// `stop` ends what is running, at once: its promises are rejected with `Stopped`, and the next call gets a new worker, which
// `ready` begins beforehand.

export class Stopped extends Error {}

export function start(module, newWorker) {
  let worker;
  let next = 0;
  const waiting = new Map();

  const failAll = (error) => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  const end = (error) => {
    worker?.terminate();
    worker = undefined;
    failAll(error);
  };
  const working = () => {
    if (worker) return worker;
    worker = newWorker();
    worker.onmessage = ({ data: { id, answer, error } }) => {
      const { resolve, reject } = waiting.get(id);
      waiting.delete(id);
      if (answer) resolve(answer);
      else reject(new Error(error));
    };
    worker.onerror = (event) => end(new Error(event.message));
    worker.postMessage({ module });
    return worker;
  };

  return {
    run(args, files = {}, options = {}) {
      return new Promise((resolve, reject) => {
        const id = ++next;
        waiting.set(id, { resolve, reject });
        working().postMessage({ id, args, files, options: { now: new Date(), ...options } });
      });
    },
    stop() {
      if (waiting.size > 0) end(new Stopped("stopped"));
    },
    ready() {
      working();
    },
  };
}
