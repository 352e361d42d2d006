import { describe, expect, it } from 'vitest';
import type { Criterion } from '../../shared/notebook.ts';
import { judge } from '../../src/notebook/outcome.ts';

const eyelid: Criterion = {
  id: 'eyelid',
  reason: 'pale eyelids (4)',
  condition: 'eyelid = 4',
  mustBeKnown: false,
  danger: 80,
};
const epg: Criterion = {
  id: 'epg',
  reason: 'epg at your limit or more',
  condition: 'epg >= treat_from',
  mustBeKnown: true,
  danger: 40,
};
const criteria = [epg, eyelid];
const known = (criterion: string, holds: boolean) => ({ criterion, holds, lacking: [] });
const unknown = (criterion: string) => ({ criterion, holds: null, lacking: [criterion] });

describe('judge(criteria, answers)', () => {
  it('is over where any criterion holds, danger first, even where the count is missing', () => {
    expect(judge(criteria, [unknown('epg'), known('eyelid', true)])).toMatchObject({
      kind: 'over',
      reasons: ['pale eyelids (4)'],
    });
    expect(judge(criteria, [known('epg', true), known('eyelid', true)]).reasons).toEqual([
      'pale eyelids (4)',
      'epg at your limit or more',
    ]);
  });

  it('is not enough known where a must-be-known one could not be judged: eyelid 2, no count', () => {
    expect(judge(criteria, [unknown('epg'), known('eyelid', false)])).toMatchObject({
      kind: 'not enough known',
      lacking: ['epg'],
    });
  });

  it('is not enough known where nothing was typed', () => {
    expect(judge(criteria, [unknown('epg'), unknown('eyelid')]).kind).toBe('not enough known');
  });

  it('is below, naming what was not looked at, where the rest is known', () => {
    expect(judge(criteria, [known('epg', false), unknown('eyelid')])).toMatchObject({
      kind: 'below',
      notLooked: ['eyelid'],
      lacking: [],
    });
  });

  it('is below where nothing holds and all was judged', () => {
    const outcome = judge(criteria, [known('epg', false), known('eyelid', false)]);
    expect(outcome).toEqual({ kind: 'below', reasons: [], danger: 0, lacking: [], notLooked: [] });
  });
});
