import { describe, expect, it } from 'vitest';
import { dangerFirst } from '../../src/notebook/danger-first.ts';

const animal = (tag: string, danger: number, epg: number | null) => ({
  tag,
  outcome: { danger },
  epg,
});

describe('dangerFirst(animals)', () => {
  it('puts greater danger first, then more eggs, then those without a figure, else as they came', () => {
    const list = [
      animal('epg 600', 40, 600),
      animal('no count, pale', 80, null),
      animal('epg 2,000', 40, 2000),
      animal('pale, 50', 80, 50),
      animal('jaw', 90, null),
      animal('also 600', 40, 600),
    ];
    expect(dangerFirst(list).map(({ tag }) => tag)).toEqual([
      'jaw',
      'pale, 50',
      'no count, pale',
      'epg 2,000',
      'epg 600',
      'also 600',
    ]);
  });

  it('leaves the list it was given alone', () => {
    const list = Object.freeze([animal('a', 1, 1), animal('b', 2, 2)]);
    dangerFirst(list);
    expect(list.map(({ tag }) => tag)).toEqual(['a', 'b']);
  });
});
