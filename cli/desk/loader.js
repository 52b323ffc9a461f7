// The program behind one function, in a page's worker or in node: a command line and the files it names go in, what it prints
// and the files it writes come out. It sees no other file, no network and no clock but the one it is given.

const encoder = new TextEncoder();
const decoder = new TextDecoder("utf-8", { ignoreBOM: true });
const bytesOf = (text) => (typeof text === "string" ? encoder.encode(text) : text);

// What door.hpp says of a call: texts after their lengths.
class CallBytes {
  parts = [];
  size = 0;

  bytes(part) {
    this.parts.push(part);
    this.size += part.length;
  }
  number(n) {
    const four = new Uint8Array(4);
    new DataView(four.buffer).setUint32(0, n, true);
    this.bytes(four);
  }
  text(text) {
    const bytes = bytesOf(text);
    this.number(bytes.length);
    this.bytes(bytes);
  }
  into(room) {
    let at = 0;
    for (const part of this.parts) {
      room.set(part, at);
      at += part.length;
    }
  }
}

class AnswerBytes {
  constructor(bytes) {
    this.bytes = bytes;
    this.at = 0;
  }
  number() {
    this.at += 4;
    return new DataView(this.bytes.buffer, this.bytes.byteOffset).getUint32(this.at - 4, true);
  }
  text() {
    const length = this.number();
    this.at += length;
    return this.bytes.slice(this.at - length, this.at);
  }
  get atEnd() {
    return this.at >= this.bytes.length;
  }
}

// The day is asked for where the user is, and the program is told of no time zone: its clock shows the local time.
const localTime = (date) => date.getTime() - date.getTimezoneOffset() * 60_000;

// What a compiled program exports, begun; `now` gives the Date its clock shows.
export function begun(module, now = () => new Date()) {
  let memory;
  const view = () => new DataView(memory.buffer);
  const asked = {
    clock_time_get(_clock, _precision, at) {
      view().setBigUint64(at, BigInt(Math.round(localTime(now()))) * 1_000_000n, true);
      return 0;
    },
    environ_sizes_get(count, size) {
      view().setUint32(count, 0, true);
      view().setUint32(size, 0, true);
      return 0;
    },
    environ_get: () => 0,
    emscripten_notify_memory_growth() {},
  };
  // The C library asks for more than a program without files and streams calls.
  const imports = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    imports[from] ??= {};
    imports[from][name] = asked[name] ?? (() => { throw new Error(`the program called ${name}`); });
  }
  const program = new WebAssembly.Instance(module, imports).exports;
  memory = program.memory;
  program._initialize();
  return program;
}

// The desk's program. One call after the other; after one that throws (the program's memory is then as the error left it) no other
// may follow: open it again.
export function open(module) {
  let now = new Date();
  const program = begun(module, () => now);
  const { memory } = program;

  // `files`: text or bytes by name; those within folders as "folder/name", an empty folder as "folder/". `input`: what standard
  // input holds. `now`: a Date. Answers { code, out, err, files }, the files as bytes.
  return function run(args, files = {}, options = {}) {
    now = options.now ?? new Date();
    const call = new CallBytes();
    call.number(args.length);
    for (const arg of args) call.text(arg);
    call.text(options.input ?? "");
    for (const [name, text] of Object.entries(files)) {
      call.text(name);
      call.text(text);
    }
    const room = program.room(call.size);
    call.into(new Uint8Array(memory.buffer, room, call.size));
    const size = program.answer();
    const answer = new AnswerBytes(new Uint8Array(memory.buffer, program.room_at(), size));
    const code = answer.number();
    const out = decoder.decode(answer.text());
    const err = decoder.decode(answer.text());
    const written = {};
    while (!answer.atEnd) {
      const name = decoder.decode(answer.text());
      written[name] = answer.text();
    }
    return { code, out, err, files: written };
  };
}
