import { describe, expect, it } from 'vitest';
import { likeGroup, moveSentence } from '../../components/move-words.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { summerNotebook } from '../build-notebook.ts';
import { withSets } from '../treating/herd.ts';

/** Two lambs, of which L1 went to the hoggs on 21 June. */
function lambs(): Notebook {
  const both = summerNotebook({ animals: { L1: { group: 'lambs' }, L2: { group: 'lambs' } } });
  return withSets(both, [{ path: ['groups', 'L1', '2026-06-21'], value: 'hoggs' }]);
}

describe('moveSentence(notebook, ids, group, date)', () => {
  it('says from when on, and which later move stays', () => {
    expect(moveSentence(lambs(), ['L2'], 'tegs', '2026-05-20')).toBe(
      'L2 from 20 May 2026 on in tegs.',
    );
    expect(moveSentence(lambs(), ['L1', 'L2'], 'tegs', '2026-05-20')).toBe(
      '2 animals from 20 May 2026 on in tegs. A later move stays: L1 is in hoggs from 21 June 2026 on.',
    );
  });

  it('has nothing more to say of a later move into the same group, or an earlier one', () => {
    expect(moveSentence(lambs(), ['L1'], 'hoggs', '2026-05-20')).not.toContain('later');
    expect(moveSentence(lambs(), ['L1'], 'tegs', '2026-07-01')).not.toContain('later');
    expect(moveSentence(lambs(), ['L1'], '', '2026-07-01')).toBe(
      'L1 from 1 July 2026 on in no group.',
    );
  });
});

describe('likeGroup(notebook, typed)', () => {
  it('points at a group whose name differs only by capitals or spaces', () => {
    expect(likeGroup(lambs(), ' Lambs')).toBe(
      'There is a group “lambs” already. “Lambs” will be another one.',
    );
    expect(['lambs', 'ewes', ''].map((name) => likeGroup(lambs(), name))).toEqual(['', '', '']);
  });
});
