// Bytes packed as text come back as they were, and the text holds nothing that HTML or what carries a file would change.
//   node packed.mjs
import { packed, unpacked } from "../../cli/desk/page/packed.js";
import { draws } from "./draws.mjs";

const draw = draws(1);
const sequences = [[], ...[0x00, 0x09, 0x0d, 0x3c, 0x7f, 0xff].map((byte) => Array(64).fill(byte)), Array.from({ length: 1 << 17 }, () => Math.floor(256 * draw()))];
for (let size = 1; size <= 40; ++size) {
  for (let i = 0; i < 250; ++i) sequences.push(Array.from({ length: size }, () => Math.floor(256 * draw())));
}
const wrong = new Set();
for (const bytes of sequences) {
  const text = packed(bytes);
  if (/[\0\t\n\r<\x1a\x1b\x7f-\xff]/.test(text)) wrong.add("a character that must not be");
  const carried = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(new TextEncoder().encode(text));
  if (Buffer.compare(unpacked(carried, bytes.length), Uint8Array.from(bytes)) !== 0) wrong.add(`other bytes than [${bytes.slice(0, 40)}]`);
  if (bytes.length > 1000 && Buffer.byteLength(text) > 1.15 * bytes.length) wrong.add("more than a seventh is added");
}
for (const one of wrong) console.log(one);
console.log(`${sequences.length} sequences of bytes, ${wrong.size} findings`);
process.exit(wrong.size === 0 ? 0 : 1);
