/** How the bytes of a file were read as text. `mixed`: line by line, UTF-8 or Windows-1252. */
export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252' | 'mixed';

/** A file's text, and how it was come by. */
export interface Decoded {
  /** Without the byte order mark. */
  readonly text: string;
  readonly encoding: Encoding;
  readonly hadMark: boolean;
  /** Lines (from 1) that only made sense in Windows-1252, in a file otherwise in UTF-8. */
  readonly oddLines: readonly number[];
}

/** The decoder that pages, workers and Node all carry; this folder is compiled without page types. */
interface StrictDecoder {
  decode(bytes: Uint8Array): string;
}
const { TextDecoder } = globalThis as unknown as {
  TextDecoder: new (
    encoding: string,
    options: { fatal: boolean; ignoreBOM: boolean },
  ) => StrictDecoder;
};

/** Windows-1252 at 0x80–0x9F; the five that it leaves open stay control characters (WHATWG). */
const from80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/**
 * Reads bytes as text without losing any: UTF-8 with or without mark, UTF-16 with mark (or plainly
 * in every second byte), else Windows-1252, in which every byte means something. A file pasted
 * together from both is read line by line. Never throws.
 */
export function decode(bytes: Uint8Array): Decoded {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf)
    return { ...narrow(bytes.subarray(3)), hadMark: true };
  if (a === 0xff && b === 0xfe) return wide(bytes.subarray(2), 'utf-16le', true);
  if (a === 0xfe && b === 0xff) return wide(bytes.subarray(2), 'utf-16be', true);
  const order = unmarkedWide(bytes);
  return order === null ? narrow(bytes) : wide(bytes, order, false);
}

function narrow(bytes: Uint8Array): Decoded {
  const text = strictUtf8(bytes);
  if (text !== null) return { text, encoding: 'utf-8', hadMark: false, oddLines: [] };
  return lineByLine(bytes);
}

function strictUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

function lineByLine(bytes: Uint8Array): Decoded {
  const texts: string[] = [];
  const oddLines: number[] = [];
  let hasUtf8 = false;
  let start = 0;
  for (let line = 1; start < bytes.length; line++) {
    let end = start;
    while (end < bytes.length && bytes[end] !== 10 && bytes[end] !== 13) end++;
    if (bytes[end] === 13 && bytes[end + 1] === 10) end++;
    const part = bytes.subarray(start, end + 1);
    const utf8 = strictUtf8(part);
    if (utf8 === null) oddLines.push(line);
    else if (utf8.length < part.length) hasUtf8 = true;
    texts.push(utf8 ?? windows1252(part));
    start = end + 1;
  }
  const text = texts.join('');
  return hasUtf8
    ? { text, encoding: 'mixed', hadMark: false, oddLines }
    : { text, encoding: 'windows-1252', hadMark: false, oddLines: [] };
}

function windows1252(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) {
    text += byte >= 0x80 && byte <= 0x9f ? from80[byte - 0x80] : String.fromCharCode(byte);
  }
  return text;
}

/** A half character at the end of a cut-off file is kept as a character of its own. */
function wide(bytes: Uint8Array, encoding: 'utf-16le' | 'utf-16be', hadMark: boolean): Decoded {
  const [low, high] = encoding === 'utf-16le' ? [0, 1] : [1, 0];
  const parts: string[] = [];
  let units: number[] = [];
  for (let at = 0; at < bytes.length; at += 2) {
    units.push((bytes[at + low] ?? 0) | ((bytes[at + high] ?? 0) << 8));
    if (units.length === 8192) {
      parts.push(String.fromCharCode(...units));
      units = [];
    }
  }
  parts.push(String.fromCharCode(...units));
  return { text: parts.join(''), encoding, hadMark, oddLines: [] };
}

/** UTF-16 without a mark: Latin text then has a zero in every second byte, and nowhere else. */
function unmarkedWide(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const sample = bytes.subarray(0, 1024);
  if (sample.length < 4 || bytes.length % 2 === 1) return null;
  let even = 0;
  let odd = 0;
  sample.forEach((byte, at) => {
    if (byte !== 0) return;
    if (at % 2 === 0) even++;
    else odd++;
  });
  const most = sample.length * 0.4;
  if (odd >= most && even === 0) return 'utf-16le';
  return even >= most && odd === 0 ? 'utf-16be' : null;
}
