import { describe, expect, it } from 'vitest';
import type { Edit } from '../../shared/edit.ts';
import type { Limit, Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import template from '../../templates/summer-grazing.json' with { type: 'json' };
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import {
  addAnimals,
  changeAnimal,
  leaveFarm,
  moveToGroup,
  reorderAnimal,
} from '../../src/notebook/edit-animals.ts';
import {
  addDay,
  changeDayCopy,
  changeLookedFor,
  changeLimit,
  removeDay,
  type Reach,
} from '../../src/notebook/edit-days.ts';
import { changeColumn, removeColumn } from '../../src/notebook/edit-records.ts';
import { emptyNotebook, fromTemplate } from '../../src/notebook/from-template.ts';
import { groupOn, presentAnimals } from '../../src/notebook/present.ts';
import { limitWordOn } from '../../src/notebook/limit-words.ts';
import {
  animalsOf,
  columnOf,
  dayOf,
  daysOf,
  limitsOf,
  limitValue,
  signColumn,
} from '../../src/notebook/read.ts';

let ms = 10;
function apply(notebook: Notebook, edit: Edit | Fault): Notebook {
  if (isFault(edit)) throw new Error(edit.sentence);
  ms += 1;
  return applyEdit(notebook, edit, [ms, 0, 'bench']).notebook;
}

function withDay(notebook: Notebook, date: string, label = '', by?: string): Notebook {
  const added = addDay(notebook, date, label, by);
  return apply(notebook, isFault(added) ? added : added.edit);
}

function withAnimals(notebook: Notebook, ...tags: string[]): Notebook {
  const added = addAnimals(
    notebook,
    tags.map((tag) => ({ tag })),
    idMaker(),
    '2026-01-01',
  );
  return apply(notebook, added);
}

function idMaker(): () => string {
  let n = 0;
  return () => `a${(n += 1)}`;
}

const summer = fromTemplate(template as unknown as Template, {
  id: 'n',
  title: 'Test',
  stamp: [1, 0, 'bench'],
  bind: (_, shown) => shown,
});

describe('addDay(notebook, date, label)', () => {
  it('gives each day its own copy of protocol, criteria and limits', () => {
    const notebook = withDay(summer, '2026-05-03');
    const day = dayOf(notebook, '2026-05-03');
    expect(day).toMatchObject({ grams: 2, fluidMl: 28, areaMl: 0.15, areas: 2 });
    expect(day?.criteria?.length).toBe((template as unknown as Template).criteria.length);
    expect(notebook.settings['2026-05-03']?.['l-treat_from']?.[0]?.[0]).toBe(500);
  });

  it('keeps two samplings of one date apart by a label', () => {
    const notebook = withDay(withDay(summer, '2026-05-03'), '2026-05-03', 'evening');
    expect(daysOf(notebook).map((day) => day.id)).toEqual(['2026-05-03', '2026-05-03-evening']);
    expect(addDay(notebook, '2026-05-03', 'Evening')).toMatchObject({ fault: 'day-there' });
  });

  it.each(['03/05/2026', '2026-02-30', '2026-5-3', ''])('refuses %j with a sentence', (date) => {
    expect(addDay(summer, date, '')).toMatchObject({
      sentence: expect.stringMatching(/\.$/) as string,
    });
  });

  it('brings a removed day back with what it held', () => {
    const day = '2026-05-03';
    const typed: Edit = {
      label: '',
      source: 'typed',
      sets: [{ path: ['readings', day, 'a1', 'c-eyelid'], value: 4 }],
    };
    const removed = apply(apply(withDay(summer, day), typed), removeDay(summer, day));
    expect(daysOf(removed)).toEqual([]);
    const back = withDay(removed, day);
    expect(daysOf(back)).toHaveLength(1);
    expect(back.readings[day]?.['a1']?.['c-eyelid']?.[0]?.[0]).toBe(4);
  });

  it('keeps what is typed with a day that comes back, and what it held of the rest', () => {
    const day = '2026-05-03';
    const held = withDay(summer, day, 'Evening', 'Bo');
    const removed = apply(held, removeDay(held, `${day}-evening`));
    expect(addDay(removed, day, 'evening')).toMatchObject({ isBack: true });
    const typed = dayOf(withDay(removed, day, 'evening', 'Ana'), `${day}-evening`);
    expect(typed).toMatchObject({ label: 'evening', countedBy: 'Ana' });
    const bare = dayOf(withDay(removed, day, 'Evening'), `${day}-evening`);
    expect(bare).toMatchObject({ label: 'Evening', countedBy: 'Bo' });
  });
});

describe('changing a default', () => {
  const may = '2026-05-03';
  const august = '2026-08-02';
  const both = withDay(withDay(summer, may), august);

  it('never rewrites the past unless the person says every day', () => {
    const later = apply(
      both,
      changeLimit(both, august, 'l-treat_from', 1000, 'from this day on', 'our vet'),
    );
    expect(limitValue(later, may, 'l-treat_from')).toBe(500);
    expect(limitValue(later, august, 'l-treat_from')).toBe(1000);
    expect(limitValue(withDay(later, '2026-09-01'), '2026-09-01', 'l-treat_from')).toBe(1000);
    const every = apply(
      both,
      changeLimit(both, august, 'l-treat_from', 1000, 'every day', 'our vet'),
    );
    expect(limitValue(every, may, 'l-treat_from')).toBe(1000);
    const only = apply(
      both,
      changeLimit(both, august, 'l-treat_from', 1000, 'only this day', 'our vet'),
    );
    expect(limitValue(withDay(only, '2026-09-01'), '2026-09-01', 'l-treat_from')).toBe(500);
  });

  it('has nobody say what they did not: days not reached keep who said so, and whether it is theirs', () => {
    const said = (notebook: Notebook, day: string): string => {
      const limit = limitsOf(notebook).find(({ id }) => id === 'l-treat_from') as Limit;
      const { saidBy, confirmed } = limitWordOn(notebook, day, limit);
      return `${saidBy?.slice(0, 10)}, ${confirmed ? 'mine' : 'example'}`;
    };
    const change = (notebook: Notebook, day: string, who: string, reach: Reach): Notebook =>
      apply(notebook, changeLimit(notebook, day, 'l-treat_from', 1000, reach, who));
    const example = said(both, may);
    expect(example).toMatch(/, example$/);
    const only = change(both, august, 'the vet', 'only this day');
    expect([may, august].map((day) => said(only, day))).toEqual([example, 'the vet, mine']);
    expect(said(withDay(only, '2026-09-01'), '2026-09-01')).toBe(example);
    const later = change(both, august, 'the vet', 'from this day on');
    expect([may, august].map((day) => said(later, day))).toEqual([example, 'the vet, mine']);
    expect(said(withDay(later, '2026-09-01'), '2026-09-01')).toBe('the vet, mine');
    expect(said(withDay(later, '2026-06-07'), '2026-06-07')).toBe(example);
    const every = change(later, august, 'the book', 'every day');
    expect([may, august].map((day) => said(every, day))).toEqual([
      ...['the book, mine', 'the book, mine'],
    ]);
    expect(dayOf(every, may)?.limitWords).toEqual([]);
  });

  it('reaches days with what was ticked or unticked alone: they keep the other egg types they look for', () => {
    const looking = apply(both, changeLookedFor(both, may, ['nematodirus'], 'only this day'));
    const every = apply(looking, changeLookedFor(looking, august, ['coccidia'], 'every day'));
    expect(dayOf(every, may)?.lookedFor).toEqual(['nematodirus', 'coccidia']);
    expect(dayOf(every, august)?.lookedFor).toEqual(['coccidia']);
    const none = apply(every, changeLookedFor(every, august, [], 'every day'));
    expect(dayOf(none, may)?.lookedFor).toEqual(['nematodirus']);
    const asItIs = apply(
      every,
      changeLookedFor(every, may, ['nematodirus', 'coccidia'], 'every day'),
    );
    expect(dayOf(asItIs, august)?.lookedFor).toEqual(['nematodirus', 'coccidia']);
  });

  it('gives a day added behind others the settings of its time', () => {
    const later = apply(
      both,
      changeLimit(both, august, 'l-treat_from', 1000, 'from this day on', 'x'),
    );
    const changed = apply(later, changeDayCopy(later, august, { grams: 4 }, 'from this day on'));
    const june = withDay(changed, '2026-06-07');
    expect(dayOf(june, '2026-06-07')?.grams).toBe(dayOf(both, may)?.grams);
    expect(limitValue(june, '2026-06-07', 'l-treat_from')).toBe(500);
    const april = withDay(changed, '2026-04-01');
    expect(dayOf(april, '2026-04-01')?.grams).toBe(dayOf(both, may)?.grams);
    const autumn = withDay(changed, '2026-09-01');
    expect([dayOf(autumn, '2026-09-01')?.grams, dayOf(autumn, '2026-09-01')?.countedBy]).toEqual([
      ...[4, undefined],
    ]);
  });

  it('names the change by the limit and the days it reaches', () => {
    const label = (reach: Reach): string =>
      changeLimit(both, august, 'l-treat_from', 1000, reach, 'our vet').label;
    const limit = label('every day').replace(', every day', '');
    expect(limit).not.toBe('');
    expect(label('from this day on')).toBe(`${limit}, from this day on`);
    expect(label('only this day')).toBe(`${limit}, only this day`);
    expect(changeLookedFor(both, august, [], 'every day').label).toBe(
      'the egg types looked for, every day',
    );
  });

  it('does the same for the protocol', () => {
    const later = apply(both, changeDayCopy(both, august, { grams: 4 }, 'from this day on'));
    expect(dayOf(later, may)?.grams).toBe(2);
    expect(dayOf(later, august)?.grams).toBe(4);
  });
});

describe('animals', () => {
  it('keeps tags as typed and takes 0123 and 123 as two', () => {
    const notebook = withAnimals(
      emptyNotebook('n'),
      '0123',
      '123',
      '9E5',
      '1.5.2',
      '3-4-26',
      'TRUE',
    );
    expect(animalsOf(notebook).map((animal) => animal.tag)).toEqual([
      ...['0123', '123', '9E5', '1.5.2', '3-4-26', 'TRUE'],
    ]);
  });

  it('refuses a tag twice, naming it, and adds nothing', () => {
    const notebook = withAnimals(emptyNotebook('n'), 'A1');
    const twice = addAnimals(notebook, [{ tag: 'B1' }, { tag: ' A1 ' }], idMaker(), '2026-01-01');
    expect(twice).toMatchObject({
      fault: 'tag-taken',
      sentence: expect.stringContaining('A1') as string,
    });
    const same = addAnimals(
      withAnimals(emptyNotebook('n'), '982000123456789'),
      [{ tag: '982 000123456789' }],
      idMaker(),
      '2026-01-01',
    );
    expect(same).toMatchObject({ fault: 'tag-taken' });
    expect(
      changeAnimal(withAnimals(emptyNotebook('n'), 'A1', 'A2'), 'a2', { tag: 'A1' }),
    ).toMatchObject({ fault: 'tag-taken' });
  });

  it('counts an animal present from its arrival to the day before it left', () => {
    let notebook = withAnimals(withDay(withDay(summer, '2026-05-03'), '2026-08-02'), 'A1', 'A2');
    notebook = apply(notebook, changeAnimal(notebook, 'a2', { arrived: '2026-08-02' }));
    expect(presentAnimals(notebook, '2026-05-03').map((a) => a.tag)).toEqual(['A1']);
    expect(presentAnimals(notebook, '2026-08-02').map((a) => a.tag)).toEqual(['A1', 'A2']);
    notebook = apply(notebook, leaveFarm(notebook, ['a1'], '2026-08-02', 'sold'));
    expect(presentAnimals(notebook, '2026-08-02').map((a) => a.tag)).toEqual(['A2']);
    notebook = apply(notebook, leaveFarm(notebook, ['a1'], null, ''));
    expect(presentAnimals(notebook, '2026-08-02').map((a) => a.tag)).toEqual(['A1', 'A2']);
  });

  it('takes an animal with something typed for the day as present, whatever its dates say', () => {
    let notebook = withAnimals(withDay(summer, '2026-05-03'), 'A1');
    notebook = apply(notebook, leaveFarm(notebook, ['a1'], '2026-04-01', 'sold'));
    expect(presentAnimals(notebook, '2026-05-03')).toEqual([]);
    notebook = apply(notebook, {
      label: '',
      source: 'typed',
      sets: [{ path: ['readings', '2026-05-03', 'a1', 'c-eyelid'], value: 3 }],
    });
    expect(presentAnimals(notebook, '2026-05-03')).toHaveLength(1);
  });

  it('keeps the group of May when an animal moves in August', () => {
    let notebook = withAnimals(emptyNotebook('n'), 'A1');
    notebook = apply(notebook, moveToGroup(notebook, ['a1'], 'lambs', '2026-03-01'));
    notebook = apply(notebook, moveToGroup(notebook, ['a1'], 'ewes', '2026-08-01'));
    expect(groupOn(notebook, 'a1', '2026-02-01')).toBeUndefined();
    expect(groupOn(notebook, 'a1', '2026-05-03')).toBe('lambs');
    expect(groupOn(notebook, 'a1', '2026-08-01')).toBe('ewes');
  });

  it('reorders by writing one field of one animal', () => {
    const notebook = withAnimals(emptyNotebook('n'), 'A1', 'A2', 'A3');
    const edit = reorderAnimal(notebook, 'a3', 'a1');
    expect(edit.sets).toHaveLength(1);
    expect(animalsOf(apply(notebook, edit)).map((a) => a.tag)).toEqual(['A3', 'A1', 'A2']);
    const last = apply(notebook, reorderAnimal(notebook, 'a1', null));
    expect(animalsOf(last).map((a) => a.tag)).toEqual(['A2', 'A3', 'A1']);
  });
});

describe('changeColumn(notebook, id, facts)', () => {
  it('keeps the names that the page itself reads, so that spoiled samples stay out, and the column that names them', () => {
    for (const key of ['status', 'epg', 'eggs', 'factor', 'grams']) {
      expect(changeColumn(summer, `c-${key}`, { key: 'other' })).toMatchObject({
        fault: 'kept-name',
      });
      expect(isFault(changeColumn(summer, `c-${key}`, { key, label: 'other' }))).toBe(false);
    }
    expect(removeColumn(summer, 'c-status')).toMatchObject({ fault: 'status-needed' });
    expect(isFault(removeColumn(summer, 'c-eyelid'))).toBe(false);
  });

  it('reads the alarm of pale eyelids from its column also under another name in formulas', () => {
    const renamed = apply(summer, changeColumn(summer, 'c-eyelid', { key: 'eyelids' }));
    expect(signColumn(renamed, 'eyelid')?.id).toBe('c-eyelid');
  });

  it('renames by one field, and refuses a name that is taken or reserved', () => {
    const edit = changeColumn(summer, 'c-eyelid', { key: 'eyelids' });
    expect(!isFault(edit) && edit.sets).toHaveLength(1);
    expect(columnOf(apply(summer, edit), 'c-eyelid')?.key).toBe('eyelids');
    for (const key of ['epg', 'treat_from', 'mean_epg', 'herd', 'tag', 'Eyelid', '1st', ''])
      expect(changeColumn(summer, 'c-eyelid', { key })).toMatchObject({
        sentence: expect.stringMatching(/\.$/) as string,
      });
  });
});
