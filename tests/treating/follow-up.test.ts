import { describe, expect, it } from 'vitest';
import { calendarFile } from '../../src/treating/calendar.ts';
import { followUpEntries, followUps, followUpSentence } from '../../src/treating/follow-up.ts';
import { sampleWindow } from '../../src/treating/sample-window.ts';
import { animal, emptyHerd, good, product, refusal, treated } from './herd.ts';

// Usual days: Coles et al. 2006, Vet Parasitol 136:167–185 (from memory).
describe('sampleWindow(product)', () => {
  it.each([
    ['imidazothiazole', 3, 7],
    ['2-LV', 3, 7],
    ['Benzimidazole (1-BZ)', 8, 10],
    ['macrocyclic lactone', 14, 17],
    ['3-ML', 14, 17],
    ['milbemycin', 17, 21],
    ['macrocyclic lactone (milbemycin)', 17, 21],
    ['long-acting macrocyclic lactone', 17, 21],
    ['imidazotiazol', 3, 7],
    ['bencimidazol o benzimidazol', 8, 10],
    ['lactona macrocíclica', 14, 17],
    ['LM', 14, 17],
    ['lactona macrocíclica (milbemicina)', 17, 21],
    ['lactona macrocíclica de acción prolongada', 17, 21],
    ['benzimidazole + imidazothiazole', 14, 14],
    ['', 14, 14],
    ['something new', 14, 14],
  ])('%s: %d to %d days', (activeGroup, fromDays, toDays) => {
    expect(sampleWindow({ id: 'p', activeGroup })).toMatchObject({ fromDays, toDays });
  });

  it('takes the person’s own days where they typed them', () => {
    const own = sampleWindow({
      id: 'p',
      activeGroup: 'imidazothiazole',
      sampleFromDays: 10,
      sampleToDays: 12,
    });
    expect(own).toEqual({ fromDays: 10, toDays: 12, why: 'as you set it on the product' });
    expect(sampleWindow({ id: 'p', sampleFromDays: 10 })).toMatchObject({
      fromDays: 10,
      toDays: 10,
    });
  });
});

let log = emptyHerd(['2026-05-03']);
for (const tag of ['A', 'B']) log = animal(log, tag);
log = product(log, 'p', { name: 'Drench; blue, big', activeGroup: 'benzimidazole' });
log = treated(log, 'A', 'p', '2026-05-03');
log = treated(log, 'B', 'p', '2026-05-03');

describe('followUps(notebook, from)', () => {
  it('gives a round its recheck and its second sample', () => {
    const [recheck, sample] = followUps(log, '2026-05-04');
    expect(recheck).toMatchObject({ kind: 'recheck', date: '2026-05-10', tags: ['A', 'B'] });
    expect(sample).toMatchObject({
      kind: 'second sample',
      date: '2026-05-11',
      until: '2026-05-13',
    });
    expect(followUpSentence(recheck!)).toBe(
      '10 May 2026: look again at 2 animals treated with Drench; blue, big on 3 May 2026.',
    );
    expect(followUpSentence(sample!)).toContain(
      '11 May 2026 to 13 May 2026: second sample of 2 animals',
    );
  });

  it('leaves out what is over, and takes the person’s own days to the recheck', () => {
    expect(followUps(log, '2026-05-12').map(({ kind }) => kind)).toEqual(['second sample']);
    expect(followUps(log, '2026-05-14')).toEqual([]);
    expect(followUps(log, '2026-05-04', 10)[1]?.date).toBe('2026-05-13');
  });
});

/** A reader of its own, by RFC 5545: unfolds lines and splits names from values. */
function unfolded(file: string): string[] {
  return file.replace(/\r\n[ \t]/g, '').split('\r\n');
}

describe('calendarFile(entries, made)', () => {
  const file = good(
    calendarFile(followUpEntries(log, followUps(log, '2026-05-04')), '20260503T074500Z'),
  );

  it('holds all-day events that end the day after the last', () => {
    const lines = unfolded(file);
    expect(lines[0]).toBe('BEGIN:VCALENDAR');
    expect(lines.filter((line) => line.startsWith('DT'))).toEqual([
      'DTSTAMP:20260503T074500Z',
      'DTSTART;VALUE=DATE:20260510',
      'DTEND;VALUE=DATE:20260511',
      'DTSTAMP:20260503T074500Z',
      'DTSTART;VALUE=DATE:20260511',
      'DTEND;VALUE=DATE:20260514',
    ]);
    expect(lines.slice(-2)).toEqual(['END:VCALENDAR', '']);
    expect(new Set(lines.filter((line) => line.startsWith('UID:'))).size).toBe(2);
  });

  it('escapes semicolons, commas, backslashes and line ends', () => {
    expect(unfolded(file)).toContain('SUMMARY:Second sample after Drench\\; blue\\, big');
    const odd = good(
      calendarFile(
        [
          {
            uid: 'u',
            date: '2026-05-03',
            lastDate: '2026-05-03',
            title: 'a\\b',
            description: 'x\ny',
          },
        ],
        '20260503T074500Z',
      ),
    );
    expect(unfolded(odd)).toContain('SUMMARY:a\\\\b');
    expect(unfolded(odd)).toContain('DESCRIPTION:x\\ny');
  });

  it('ends every line with CRLF and folds at 75 bytes, never inside a character', () => {
    const description = 'Zoë 🐑 '.repeat(40).trim();
    const long = good(
      calendarFile(
        [{ uid: 'u', date: '2026-05-03', lastDate: '2026-05-03', title: 't', description }],
        '20260503T074500Z',
      ),
    );
    expect(long.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const bytes = long.split('\r\n').map((line) => new TextEncoder().encode(line).length);
    expect(Math.max(...bytes)).toBeLessThanOrEqual(75);
    expect(Math.max(...bytes)).toBeGreaterThan(70);
    expect(unfolded(long)).toContain(`DESCRIPTION:${description}`);
    for (const line of long.split('\r\n'))
      expect(line).not.toMatch(/[\ud800-\udbff]$|^\s?[\udc00-\udfff]/);
  });

  it('refuses a date or a moment that is none', () => {
    expect(refusal(calendarFile([], 'now'))).toContain('not a moment');
    const bad = {
      uid: 'u',
      date: '2026-02-30',
      lastDate: '2026-02-30',
      title: '',
      description: '',
    };
    expect(refusal(calendarFile([bad], '20260503T074500Z'))).toContain('2026-02-30');
  });
});
