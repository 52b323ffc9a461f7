// Bytes as text within an HTML page in UTF-8: seven bits a character, a seventh more than the bytes themselves (base64: a third).
// Characters that HTML or what carries a file may change or take for its own (end of line, tab, NUL, '<', ...) never appear: where
// seven bits would be one of these, a character of two bytes stands for it and for the seven bits that follow. Those begin at
// U+0100, beyond the control characters.
const NEVER = [0x00, 0x09, 0x0a, 0x0d, 0x1a, 0x1b, 0x3c, 0x7f];
const WIDE = 0x100;

export function packed(bytes) {
  const sevens = [];
  let held = 0;
  let bits = 0;
  for (const byte of bytes) {
    held = (held << 8) | byte;
    for (bits += 8; bits >= 7; bits -= 7) sevens.push((held >> (bits - 7)) & 0x7f);
    held &= 0x7f;
  }
  if (bits > 0) sevens.push((held << (7 - bits)) & 0x7f);
  const codes = [];
  for (let i = 0; i < sevens.length; ++i) {
    const never = NEVER.indexOf(sevens[i]);
    codes.push(never < 0 ? sevens[i] : WIDE + (never << 7) + (sevens[++i] ?? 0));
  }
  let text = "";
  for (let i = 0; i < codes.length; i += 4096) text += String.fromCharCode(...codes.slice(i, i + 4096));
  return text;
}

// The first `size` bytes of a packed text, which are all of them when there were so many.
export function unpacked(text, size) {
  const bytes = new Uint8Array(size + 2);  // the last character may hold up to thirteen bits more
  let at = 0;
  let held = 0;
  let bits = 0;
  const take = (seven) => {
    held = ((held << 7) | seven) & 0x3fff;
    bits += 7;
    if (bits < 8) return;
    bits -= 8;
    bytes[at++] = held >> bits;
  };
  for (let i = 0; i < text.length; ++i) {
    const code = text.charCodeAt(i);
    if (code >= WIDE) take(NEVER[(code - WIDE) >> 7]);
    take(code & 0x7f);
  }
  return bytes.subarray(0, size);
}
