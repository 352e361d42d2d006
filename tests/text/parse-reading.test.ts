import { describe, expect, it } from 'vitest';
import type { Column } from '../../shared/notebook.ts';
import { kgPerLb, parseReading, type Typing } from '../../src/text/parse-reading.ts';

const point: Typing = { decimalMark: '.', weightUnit: 'kg' };
const comma: Typing = { decimalMark: ',', weightUnit: 'lb' };

function column(kind: Column['kind'], more: Partial<Column> = {}): Column {
  return { id: 'c', key: 'k', label: 'Eyelid colour', kind, ...more };
}

describe('parseReading(count)', () => {
  it.each([
    ['0', 0],
    ['14', 14],
    [' 07 ', 7],
    ['100000', 100000],
  ])('takes %j as %d eggs', (typed, value) => {
    expect(parseReading(column('count'), typed, point)).toMatchObject({ kind: 'number', value });
  });

  it('is missing, not zero, for an emptied cell', () => {
    expect(parseReading(column('count'), '  ', point)).toBeNull();
  });

  it.each([
    '-3',
    '1e3',
    '5,5',
    '5.5',
    '12?',
    '1000000000',
    '🥚',
    '-',
    'x',
    '1 2',
    '٣',
    '0x1F',
    '+4',
  ])('keeps %j as typed, as a fault with a sentence', (typed) => {
    const reading = parseReading(column('count'), typed, point);
    expect(reading).toMatchObject({ kind: 'fault', text: typed });
    expect(reading?.kind === 'fault' && reading.reason).toMatch(/[.]$/);
  });

  it('keeps bounds as bounds and never as numbers', () => {
    expect(parseReading(column('count'), '>40', point)).toEqual({
      kind: 'over',
      text: '>40',
      value: 40,
    });
    expect(parseReading(column('count'), '< 5', point)).toMatchObject({ kind: 'under', value: 5 });
    expect(parseReading(column('count'), '<0', point)).toMatchObject({ kind: 'fault' });
  });

  it.each(['TNTC', 'too many', 'Too Many'])('takes %j as too many to count', (typed) => {
    expect(parseReading(column('count'), typed, point)).toEqual({ kind: 'too-many', text: typed });
  });
});

describe('parseReading of other kinds', () => {
  it('reads a part of the grid by lanes, exactly', () => {
    expect(parseReading(column('part'), '3/6', point)).toMatchObject({ value: 0.5, text: '3/6' });
    expect(parseReading(column('part'), '0/6', point)).toMatchObject({ kind: 'fault' });
    expect(parseReading(column('part'), '7/6', point)).toMatchObject({ kind: 'fault' });
  });

  it('keeps the unit a weight was typed in; a bare number is in the notebook’s unit', () => {
    expect(parseReading(column('weight'), '41.5', point)).toMatchObject({
      value: 41.5,
      unit: 'kg',
    });
    expect(parseReading(column('weight'), '91 lb', point)).toMatchObject({ value: 91, unit: 'lb' });
    expect(parseReading(column('weight'), '91', comma)).toMatchObject({ value: 91, unit: 'lb' });
    expect(parseReading(column('weight'), '0', point)).toMatchObject({ kind: 'fault' });
    expect(parseReading(column('weight'), '4000', point)).toMatchObject({ kind: 'fault' });
  });

  it('takes the international pound of 1959 as 0.45359237 kg', () => {
    expect(kgPerLb).toBe(0.45359237);
  });

  it('refuses the other decimal mark and says which one is in force', () => {
    const reading = parseReading(column('number'), '41,5', point);
    expect(reading).toMatchObject({ kind: 'fault', text: '41,5' });
    expect(reading?.kind === 'fault' && reading.reason).toContain('41.5');
    expect(parseReading(column('number'), '41,5', comma)).toMatchObject({ value: 41.5 });
  });

  it('names the decimal mark also where a weight, a score or a part has the other one', () => {
    const condition = column('score', { low: 1, high: 5, step: 0.5 });
    const reasons = [
      parseReading(column('weight'), '73,5 kg', point),
      parseReading(condition, '2,5', point),
      parseReading(column('part'), ',5', point),
      parseReading(condition, '2.5', comma),
    ].map((reading) => (reading?.kind === 'fault' ? reading.reason : ''));
    expect(reasons).toEqual([
      '"73,5 kg": the decimal mark here is ".". Type 73.5 kg.',
      '"2,5": the decimal mark here is ".". Type 2.5.',
      '",5": the decimal mark here is ".". Type .5.',
      '"2.5": the decimal mark here is ",". Type 2,5.',
    ]);
  });

  it('says whole points of a score that knows no halves, under either mark', () => {
    const eyelid = column('score', { low: 1, high: 5, step: 1, label: 'eyelid' });
    for (const typing of [point, comma])
      for (const typed of ['2,5', '2.5'])
        expect(parseReading(eyelid, typed, typing)).toMatchObject({
          reason: 'eyelid goes from 1 to 5 in whole points.',
        });
  });

  it('holds a score to its range and its steps', () => {
    const eyelid = column('score', { low: 1, high: 5, step: 1 });
    expect(parseReading(eyelid, '4', point)).toMatchObject({ value: 4 });
    for (const typed of ['0', '6', '2.5', 'pale'])
      expect(parseReading(eyelid, typed, point)).toMatchObject({ kind: 'fault', text: typed });
    const condition = column('score', { low: 1, high: 5, step: 0.5 });
    expect(parseReading(condition, '2.5', point)).toMatchObject({ value: 2.5 });
  });

  it('reads a tick by yes and no, and nothing else', () => {
    expect(parseReading(column('tick'), 'yes', point)).toMatchObject({ kind: 'tick', value: true });
    expect(parseReading(column('tick'), 'no', point)).toMatchObject({ kind: 'tick', value: false });
    expect(parseReading(column('tick'), 'maybe', point)).toMatchObject({ kind: 'fault' });
  });

  it('takes a note as it is, whatever it looks like', () => {
    for (const typed of ['=big worms?', '+50', ' two spaces ', '1E5'])
      expect(parseReading(column('text'), typed, point)).toEqual({ kind: 'text', text: typed });
  });

  it('refuses typing into a worked-out column, unless it may be typed over', () => {
    expect(parseReading(column('formula'), '3', point)).toMatchObject({ kind: 'fault' });
    expect(parseReading(column('formula', { typedOver: true }), '3', point)).toMatchObject({
      value: 3,
    });
    expect(parseReading(column('outcome'), 'below', point)).toMatchObject({ kind: 'fault' });
  });

  it('takes a status by any of its words', () => {
    const status = column('choice', { key: 'status', words: ['not sampled', 'spoiled'] });
    expect(parseReading(status, 'Spoilt', point)).toEqual({ kind: 'text', text: 'spoiled' });
    expect(parseReading(status, 'no sample', point)).toEqual({ kind: 'text', text: 'not sampled' });
    expect(parseReading(status, 'eaten', point)).toMatchObject({ kind: 'fault', text: 'eaten' });
  });
});
