// What the desk remembers: pupils in the browser's own database, and which sheet lies on top. Every edit is written at once, so
// that a tab killed at any moment loses at most the key being typed. Names begin with "loftwright-": another local page may see them.
const DATABASE = "loftwright-desk";

const asked = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

export async function openStore() {
  const opening = indexedDB.open(DATABASE, 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("pupils", { keyPath: "id" });
  const database = await asked(opening);
  const others = new BroadcastChannel(DATABASE);
  const pupils = (mode) => database.transaction("pupils", mode).objectStore("pupils");
  const write = (act) => new Promise((resolve, reject) => {
    const transaction = database.transaction("pupils", "readwrite", { durability: "strict" });
    act(transaction.objectStore("pupils"));
    transaction.oncomplete = () => { others.postMessage("changed"); resolve(); };
    transaction.onabort = transaction.onerror = () => reject(transaction.error ?? new Error("the write was given up"));
  });
  return {
    all: () => asked(pupils("readonly").getAll()),
    get: (id) => asked(pupils("readonly").get(id)),
    put: (pupil) => write((store) => store.put(pupil)),
    remove: (id) => write((store) => store.delete(id)),
    onOthers: (act) => { others.onmessage = act; },  // when another tab has changed something
  };
}

// Small choices: units, look, which pupil and view were open; and what the coach's lessons do (academy.js).
export const remembered = {
  read() {
    try {
      return JSON.parse(localStorage.getItem(DATABASE)) ?? {};
    } catch {
      return {};
    }
  },
  write(changes) {
    try {
      localStorage.setItem(DATABASE, JSON.stringify({ ...this.read(), ...changes }));
      return true;
    } catch {
      return false;  // a store that is full or refused
    }
  },
};

export const newPupil = (document = {}) => ({
  id: crypto.randomUUID?.() ?? `${Date.now()}-${Math.random()}`,
  document: { format: "loftwright-pupil/1", ...document },
  lists: [],      // { name, bytes, out: { line: why }, heads: { head: word chosen }, rows: texts typed by hand, or none,
                  //   clubs: [{ club, lines }] once they are known, club: the one whose shots alone count, or none }
  models: [],     // { name, kind, bytes }: ball, head or turf of the coach's own
  book: {},       // the book and the one before it, bytes by name, as `book add` wrote them
  aside: {},      // what a list took the place of, in the document
  changed: Date.now(),
  saved: null,    // when it was last saved as a file
});

export const nameOf = (pupil) => (typeof pupil.document.name === "string" && pupil.document.name.trim()) || "A pupil without a name";

// The heads of a list by the words that the coach chose for them, in the first of its rows that has such a cell. Bytes are taken as
// characters one by one, so that every other stays as it is.
export const TEXT_ROWS = 20;  // the program looks for heads in the first so many
function renamed(bytes, heads) {
  const chars = (some) => { let text = ""; for (const byte of some) text += String.fromCharCode(byte); return text; };
  let begin = 0;
  for (let row = 0; row < TEXT_ROWS && begin < bytes.length; ++row) {
    const end = bytes.findIndex((byte, i) => i >= begin && (byte === 10 || byte === 13));
    const line = chars(bytes.subarray(begin, end < 0 ? bytes.length : end));
    let words = line;
    for (const [head, word] of Object.entries(heads)) {
      const old = chars(new TextEncoder().encode(head)).replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
      words = words.replace(new RegExp(`((?:^|[,;\\t])\\s*"?)${old}(?="?\\s*(?:[,;\\t]|$))`), (_, before) => before + word);
    }
    if (words !== line) {
      const rest = bytes.subarray(begin + line.length);
      const all = new Uint8Array(begin + words.length + rest.length);
      all.set(bytes.subarray(0, begin));
      all.set(Uint8Array.from(words, (c) => c.charCodeAt(0)), begin);
      all.set(rest, begin + words.length);
      return all;
    }
    if (end < 0) break;
    begin = end + 1;
  }
  return bytes;
}

// A list as the coach takes it: columns by the words chosen for them, and without the shots that were taken out nor, unless asked
// for, those of other clubs than the one chosen: their lines become comments, so that every other keeps its number.
export function bytesOf(list, { everyClub = false } = {}) {
  const others = list.club && !everyClub ? (list.clubs ?? []).filter(({ club }) => club !== list.club).flatMap(({ lines }) => lines) : [];
  return withoutLines(Object.keys(list.heads ?? {}).length ? renamed(list.bytes, list.heads) : list.bytes, [...Object.keys(list.out ?? {}).map(Number), ...others]);
}

function withoutLines(bytes, lines) {
  const out = new Set(lines);
  if (out.size === 0) return bytes;
  const mark = new TextEncoder().encode("# left out: ");
  const parts = [];
  let line = 1;
  let begin = 0;
  for (let i = 0; i <= bytes.length; ++i) {
    const ends = i === bytes.length || bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10);
    if (!ends) continue;
    if (out.has(line)) parts.push(mark);
    parts.push(bytes.subarray(begin, i + 1));
    begin = i + 1;
    ++line;
  }
  const all = new Uint8Array(parts.reduce((size, part) => size + part.length, 0));
  let at = 0;
  for (const part of parts) { all.set(part, at); at += part.length; }
  return all;
}

// The files a command line may name. A list has none of the desk's own names.
export const OWN_FILES = ["pupil.json", "tuned.json", "book.json", "book.json.previous", "page.html"];
// `delivery`: the list that is the delivery of a pupil whose sheet gives none yet.
export function filesOf({ document, lists, models = [], book }, { everyClub = false, delivery } = {}) {
  const gives = ["delivery", "launch", "shots"].some((key) => key in document);
  const files = { "pupil.json": JSON.stringify(gives || !delivery ? document : { ...document, shots: delivery }, null, 2) };
  for (const list of lists) files[list.name] = bytesOf(list, { everyClub });
  for (const model of models) files[model.name] = model.bytes;
  return { ...files, ...book };
}

// A name that no other file of the pupil has; `fallback` for a file without one.
export function uniqueName(pupil, name, fallback) {
  const plain = name.replace(/[\\/]/g, "-") || fallback;
  const taken = new Set([...pupil.lists, ...(pupil.models ?? [])].map((one) => one.name).concat(OWN_FILES));
  for (let i = 1; ; ++i) {
    const tried = i === 1 ? plain : plain.replace(/(\.\w+)?$/, `-${i}$1`);
    if (!taken.has(tried)) return tried;
  }
}

// Lists may be UTF-16 or Windows-1252, as spreadsheets write them; kept as UTF-8, so that lines can be told apart by bytes, and
// heads found by what the program says of them.
export function asBytes(buffer) {
  const bytes = new Uint8Array(buffer);
  const plain = () => {
    try {
      new TextDecoder("utf-8", { fatal: true }).decode(bytes);
      return undefined;
    } catch {
      return "windows-1252";
    }
  };
  const other = (bytes[0] === 0xff && bytes[1] === 0xfe) ? "utf-16le" : (bytes[0] === 0xfe && bytes[1] === 0xff) ? "utf-16be" : plain();
  return other ? new TextEncoder().encode(new TextDecoder(other).decode(bytes)) : bytes;
}

const BUNDLE = "loftwright-desk/1";
const toText = (bytes) => { let s = ""; for (const b of bytes) s += String.fromCharCode(b); return btoa(s); };
const fromText = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

// Pupils with their lists and books as one file, and what the lessons do.
export function bundleOf(pupils, academy) {
  return JSON.stringify({
    format: BUNDLE, academy,
    pupils: pupils.map(({ id, document, lists, models = [], book, aside }) => ({
      id, document, aside,
      models: models.map((model) => ({ ...model, bytes: toText(model.bytes) })),
      lists: lists.map((list) => ({ ...list, bytes: toText(list.bytes) })),
      book: Object.fromEntries(Object.entries(book).map(([name, bytes]) => [name, toText(bytes)])),
    })),
  }, null, 1);
}

// Whether a pupil has all that another, out of a file, has: a pupil's file alone holds no lists, models or book. Keys in any order.
export function holdsAll(pupil, other) {
  const told = (value) => JSON.stringify(value, (_, one) => (one instanceof Uint8Array ? toText(one)
    : one && typeof one === "object" && !Array.isArray(one) ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1))) : one));
  const beside = ({ lists, models = [], book, aside }) =>
    told({ aside, book, models, lists: lists.map(({ name, bytes, out = {}, heads = {}, rows, club }) => ({ name, bytes, out, heads, rows, club })) });
  return told(pupil.document) === told(other.document) && [beside(pupil), beside(newPupil())].includes(beside(other));
}

// What a file holds, one of the desk's, a pupil's or an academy's: { pupils, academy }. Throws an Error that says what is wrong.
export function contentsOf(text, name) {
  let read;
  try {
    read = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    throw new Error(`${name} is not JSON: ${error.message}`);
  }
  if (read?.format === "loftwright-academy/1") return { pupils: [], academy: text };
  if (read?.format === "loftwright-pupil/1") return { pupils: [newPupil(read)] };
  return { pupils: pupilsIn(read, name), academy: typeof read.academy === "string" ? read.academy : undefined };
}

function pupilsIn(read, name) {
  if (read?.format !== BUNDLE || !Array.isArray(read.pupils)) {
    throw new Error(`${name} is neither a pupil's file (loftwright-pupil/1) nor one that the desk saved (${BUNDLE})`);
  }
  return read.pupils.map((one) => {
    const files = [one?.lists, one?.models ?? []];
    const whole = one?.document?.format === "loftwright-pupil/1" && files.every(Array.isArray) &&
      files.flat().every((file) => typeof file?.name === "string" && typeof file.bytes === "string" && !OWN_FILES.includes(file.name));
    if (!whole) throw new Error(`${name}: a pupil in it is not whole`);
    return {
      ...newPupil(one.document),
      aside: one.aside ?? {},
      lists: one.lists.map((list) => ({ ...list, bytes: fromText(list.bytes) })),
      models: (one.models ?? []).map((model) => ({ ...model, bytes: fromText(model.bytes) })),
      book: Object.fromEntries(Object.entries(one.book ?? {}).map(([file, bytes]) => [file, fromText(bytes)])),
      saved: Date.now(),
    };
  });
}
