import { describe, expect, it } from 'vitest';
import { decode } from '../../src/csv/decode.ts';

const bytes = (...parts: (string | number[])[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) =>
      typeof part === 'string' ? [...new TextEncoder().encode(part)] : part,
    ),
  );
const wide = (text: string, order: 'le' | 'be'): number[] =>
  Array.from(text, (letter) => letter.charCodeAt(0)).flatMap((unit) =>
    order === 'le' ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255],
  );

describe('decode(bytes)', () => {
  it('reads UTF-8 with and without its mark', () => {
    expect(decode(bytes('Zoë 🐑'))).toEqual({
      text: 'Zoë 🐑',
      encoding: 'utf-8',
      hadMark: false,
      oddLines: [],
    });
    expect(decode(bytes([0xef, 0xbb, 0xbf], 'Zoë'))).toMatchObject({ text: 'Zoë', hadMark: true });
  });

  it('reads UTF-16 in both orders with its mark', () => {
    expect(decode(bytes([0xff, 0xfe], wide('tag;Zoë', 'le')))).toMatchObject({
      text: 'tag;Zoë',
      encoding: 'utf-16le',
    });
    expect(decode(bytes([0xfe, 0xff], wide('tag;Zoë', 'be')))).toMatchObject({
      text: 'tag;Zoë',
      encoding: 'utf-16be',
    });
  });

  it('knows UTF-16 without a mark by its zeros', () => {
    expect(decode(bytes(wide('tag,n\nA1,5', 'le')))).toMatchObject({ text: 'tag,n\nA1,5' });
    expect(decode(bytes(wide('tag,n\nA1,5', 'be')))).toMatchObject({ encoding: 'utf-16be' });
  });

  it('reads a long UTF-16 file whole, and the half character at a cut-off end', () => {
    const text = 'tag,Zoë\n'.repeat(5000);
    expect(decode(bytes([0xff, 0xfe], wide(text, 'le'))).text).toBe(text);
    expect(decode(bytes([0xff, 0xfe], wide('ab', 'le'), [99])).text).toBe('abc');
  });

  it('falls back to Windows-1252, in which every byte means something', () => {
    // Code chart of Windows-1252 (WHATWG Encoding Standard, index windows-1252).
    expect(decode(bytes([0x80, 0x82, 0x8a, 0x93, 0x9f, 0xe9, 0xff])).text).toBe('€‚Š“Ÿéÿ');
    const all = decode(Uint8Array.from({ length: 256 }, (_, at) => (at + 1) % 256));
    expect(all.encoding).toBe('windows-1252');
    expect(new Set(all.text).size).toBe(256);
  });

  it('reads a file pasted together from two encodings line by line, and names the odd lines', () => {
    expect(decode(bytes('Zoë\nplain\r\nJos', [0xe9], '\rZoë'))).toEqual({
      text: 'Zoë\nplain\r\nJosé\rZoë',
      encoding: 'mixed',
      hadMark: false,
      oddLines: [3],
    });
  });

  it('reads a UTF-8 file cut off inside a letter without losing the rest', () => {
    const cut = bytes('tag\nZoë\nZo', [0xc3]);
    expect(decode(cut)).toMatchObject({ text: 'tag\nZoë\nZoÃ', oddLines: [3] });
  });
});
