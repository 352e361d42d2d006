import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { planToEdit } from '../../src/csv/import-edit.ts';
import { isReady, type ImportOptions, type ImportPlan } from '../../src/csv/import-plan.ts';
import { isNotebookHeading } from '../../src/csv/import-roles.ts';
import { planImport, planNow } from '../../src/csv/plan-import.ts';
import { readTable } from '../../src/csv/read-table.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { groupOn, presentAnimals } from '../../src/notebook/present.ts';
import { animalsOf, columnByKey, dayOf, daysOf, readingOf } from '../../src/notebook/read.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import { nextStamp, summerNotebook } from '../build-notebook.ts';
import { stillEngine } from '../session/still-engine.ts';

const answers = (...pairs: [string, string][]): Partial<ImportOptions> => ({
  answers: new Map(pairs),
});

function plan(text: string, notebook: Notebook, more: Partial<ImportOptions> = {}): ImportPlan {
  let ids = 0;
  const table = readTable(text, { isHeading: isNotebookHeading(notebook) });
  return planNow(table, notebook, { newId: () => `new-${(ids += 1)}`, ...more });
}

function imported(text: string, notebook: Notebook, more: Partial<ImportOptions> = {}): Notebook {
  const edit = planToEdit(notebook, plan(text, notebook, more), 'counts.csv');
  if (isFault(edit)) throw new Error(edit.sentence);
  return applyEdit(notebook, edit, nextStamp()).notebook;
}

/** What stands in a notebook under a tag, a day and a column's key, as typed. */
function typed(notebook: Notebook, tag: string, day: string, key: string): string | undefined {
  const animal = animalsOf(notebook).find((one) => one.tag === tag);
  const column = columnByKey(notebook, key);
  return animal && column && readingOf(notebook, day, animal.id, column.id)?.text;
}

const herd = (): Notebook =>
  summerNotebook({
    animals: { a1: { tag: 'K-001', name: 'Willow' }, a2: { tag: '982 000123456789' } },
    days: { '2026-05-03': { grams: 3, fluidMl: 42, areaMl: 0.15, areas: 2, fluidIs: 'added' } },
    counts: { '2026-05-03': { a1: { chamber1: '4' } } },
  });

describe('planImport(table, notebook, options)', () => {
  it('says who is new and who is known, in whatever form the number is written', () => {
    const { animals, days } = plan(
      'tag,date,chamber1\nK-001,2026-05-20,1\n982000123456789,2026-05-20,2\nK-9,2026-05-20,3\n',
      herd(),
    );
    expect(animals.map(({ tag, isNew, line }) => [tag, isNew, line])).toEqual([
      ['K-001', false, 2],
      ['982 000123456789', false, 3],
      ['K-9', true, 4],
    ]);
    expect(days).toEqual([{ id: '2026-05-20', date: '2026-05-20', label: '', isNew: true }]);
  });

  it('counts every line once: taken, or named as left out', () => {
    const { problems, lines } = plan(
      'tag,date,chamber1\nA,2026-05-20,1\n9.82E+14,2026-05-20,2\n,2026-05-20,3\nB,2026-02-30,4\nC,2026-05-20,5,6\n',
      herd(),
    );
    expect([...(lines.get('2026-05-20')?.values() ?? [])]).toEqual([2]);
    const out = problems.filter(({ what }) => what === 'left out').map(({ line }) => line);
    expect(out).toEqual([3, 4, 5, 6]);
  });

  it('keeps what it cannot read as typed, with its line and a reason', () => {
    const { problems, countKept } = plan('tag,date,chamber1,eyelid\nA,2026-05-20,12?,7\n', herd());
    expect(countKept).toBe(2);
    expect(problems.map(({ line, what, text }) => [line, what, text])).toEqual([
      [2, 'kept as typed', '12?'],
      [2, 'kept as typed', '7'],
    ]);
    expect(problems[1]?.sentence).toContain('eyelid colour goes from 1 to 5');
  });

  it('asks for a day where the list has none, and takes the one given', () => {
    const text = 'tag,chamber1\nA,1\n';
    expect(plan(text, herd()).needsDay).toBe(true);
    expect(isReady(plan(text, herd()))).toBe(false);
    const after = imported(text, herd(), { day: '2026-05-03' });
    expect(typed(after, 'A', '2026-05-03', 'chamber1')).toBe('1');
  });

  it('asks for no other day while it asks which comes first in the dates of a list', () => {
    const ofAnimal = 'tag,date,chamber1\nA,03/04/2026,1\n';
    const ofCup = 'cup,date,tag,chamber1\n7,03/04/2026,,1\n';
    for (const text of [ofAnimal, ofCup]) {
      const open = plan(text, herd());
      expect(open.questions.map(({ kind }) => kind)).toEqual(['date-order']);
      expect([open.needsDay, isReady(open)]).toEqual([false, false]);
      const read = plan(text, herd(), answers(['order:1', 'dmy']));
      expect(read.days.map(({ id }) => id)).toEqual(['2026-04-03']);
      expect(isReady(read)).toBe(true);
    }
    const some = plan('tag,date,chamber1\nA,03/04/2026,1\nB,,2\n', herd());
    expect(some.needsDay).toBe(true);
  });

  it('asks once whether a value that differs from the notebook is to be taken', () => {
    const text = 'tag,date,chamber1\nK-001,2026-05-03,9\n';
    const { questions, count } = plan(text, herd());
    expect(questions.map(({ id }) => id)).toEqual(['there']);
    expect(questions[0]?.sentence).toContain('4 in the notebook, 9 in the list');
    expect(count).toBe(0);
    const kept = plan(text, herd(), answers(['there', 'keep']));
    expect(planToEdit(herd(), kept, 'counts.csv')).toMatchObject({ fault: 'nothing-new' });
    const taken = imported(text, herd(), answers(['there', 'take']));
    expect(typed(taken, 'K-001', '2026-05-03', 'chamber1')).toBe('9');
  });

  it('finds what is there already, and an empty cell clears nothing', () => {
    const same = plan('tag,date,chamber1\nK-001,2026-05-03,4\n', herd());
    expect([same.count, same.countSame]).toEqual([0, 1]);
    const blank = plan('tag,date,chamber1\nK-001,2026-05-03,\n', herd());
    expect(blank.count).toBe(0);
  });

  it('takes the factor of the day that a count of both areas is for', () => {
    const text = 'tag,date,count\nA,2026-05-03,7\nA,2026-05-20,7\n';
    const notebook = imported(text, herd());
    // 3 g in 42 mL, 2 × 0.15 mL: 45 ÷ 0.9 = 50; new days have the defaults, 30 ÷ 0.6 = 50.
    expect(typed(notebook, 'A', '2026-05-03', 'factor')).toBe('50');
    expect(typed(notebook, 'A', '2026-05-20', 'factor')).toBe('50');
    const one = imported(text, herd(), answers(['count', 'one']));
    expect(typed(one, 'A', '2026-05-03', 'factor')).toBeUndefined();
  });

  it('gives new days the copies that a new day has', () => {
    const after = imported('tag,date,chamber1\nA,2026-05-20,1\n', herd());
    expect(daysOf(after).map(({ id }) => id)).toEqual(['2026-05-03', '2026-05-20']);
    expect(dayOf(after, '2026-05-20')).toMatchObject({ grams: 2, fluidMl: 28, areas: 2 });
    expect(dayOf(after, '2026-05-20')?.criteria).not.toEqual([]);
  });

  it('leaves the number of animals of earlier days as it was', () => {
    const after = imported('tag,date,chamber1\nA,2026-05-20,1\n', herd());
    expect(presentAnimals(after, '2026-05-03')).toHaveLength(2);
    expect(presentAnimals(after, '2026-05-20')).toHaveLength(3);
  });

  it('reads a herd list: names, classes, groups, births, and makes no day of it', () => {
    const notebook = summerNotebook({});
    const text =
      'Tag,EID,Name,Class,Group,Born\nL1,982000123456781,Bo,lambs,hill,1 March 2026\nE1,,,ewe,hill,\n';
    const after = imported(text, notebook);
    expect(daysOf(after)).toEqual([]);
    const [lamb, ewe] = animalsOf(after);
    expect(lamb).toMatchObject({
      tag: 'L1',
      electronic: '982000123456781',
      name: 'Bo',
      class: 'lamb',
      species: 'sheep',
      born: '2026-03-01',
    });
    expect(ewe).toMatchObject({ tag: 'E1', class: 'ewe' });
    expect(groupOn(after, ewe?.id ?? '', '2026-05-03')).toBe('hill');
  });

  it('never writes over a name or class that the notebook has, and says what it left out', () => {
    const text = 'tag,name,class\nK-001,Fern,ewe\n';
    const { animals, problems } = plan(text, herd());
    expect(animals[0]?.facts).toEqual({ class: 'ewe', species: 'sheep' });
    expect(problems[0]?.sentence).toBe(
      'Line 2: K-001 has the name Willow already; Fern is left out.',
    );
    const known = summerNotebook({ animals: { a1: { tag: 'K-001', born: '2025-03-01' } } });
    expect(plan('tag,born\nK-001,2025-04-02\n', known).problems[0]?.sentence).toBe(
      'Line 2: K-001 has the date of birth 1 March 2025 already; 2 April 2025 is left out.',
    );
  });

  it('says when a tag and an electronic number belong to two animals', () => {
    const { problems, animals } = plan(
      'tag,eid,date,chamber1\nK-001,982000123456789,2026-05-20,1\n',
      herd(),
    );
    expect(problems[0]?.sentence).toContain('belong to two animals');
    expect(animals).toEqual([]);
  });

  it('warns of a new tag that is like one of the notebook', () => {
    const { problems } = plan('tag,date,chamber1\nk-1,2026-05-20,1\n', herd());
    expect(problems.map(({ kind, what }) => [kind, what])).toEqual([['like-tags', 'look']]);
  });

  it('keeps cups whose animal is not known yet', () => {
    const text = 'cup,date,chamber1\n7,2026-05-20,3\n8,2026-05-20,0\n';
    const after = imported(text, herd());
    const column = columnByKey(after, 'chamber1')?.id ?? '';
    expect(Object.keys(after.cups)).toHaveLength(2);
    const counts = Object.keys(after.cups).map(
      (cup) => readingOf(after, '2026-05-20', cup, column)?.text,
    );
    expect(counts).toEqual(['3', '0']);
  });

  it('reads decimal commas into a notebook with decimal points, and the other way round', () => {
    const text = 'tag;date;condition;weight\nA;2026-05-20;2,5;41,5 kg\n';
    const after = imported(text, herd());
    expect(typed(after, 'A', '2026-05-20', 'condition')).toBe('2.5');
    expect(typed(after, 'A', '2026-05-20', 'weight')).toBe('41.5 kg');
  });

  it('pauses on the way through a long list, saying how far it is', () => {
    const rows = Array.from({ length: 1600 }, (_, i) => `T${i},2026-05-20,${i % 7}`);
    const work = planImport(readTable(`tag,date,chamber1\n${rows.join('\n')}\n`), herd(), {
      newId: () => 'x',
    });
    const told: number[] = [];
    for (let step = work.next(); !step.done; step = work.next()) {
      told.push(step.value.done);
      expect(step.value.of).toBe(1600);
    }
    expect(told).toEqual([500, 1000, 1500]);
  });
});

describe('planToEdit(notebook, plan, name)', () => {
  it('is one edit, and one undo takes all of it back', async () => {
    const notebook = herd();
    let ms = 1_790_000_000_000;
    const now = (): number => (ms += 10);
    const clock = new Clock('bench', now);
    const session = new Session(notebook, { engine: stillEngine(), clock, now });
    const text = 'tag,group,2026-05-20,2026-06-03\nK-001,hill,4,5\nNEW,hill,6,\n';
    const edit = planToEdit(notebook, plan(text, notebook), 'counts.csv');
    if (isFault(edit)) throw new Error(edit.sentence);
    await session.dispatch(edit);
    expect(session.undoLabel).toBe('import of counts.csv');
    expect(edit.source).toBe('import');
    expect(daysOf(session.notebook)).toHaveLength(3);
    await session.undo();
    expect(session.undoLabel).toBeNull();
    expect(daysOf(session.notebook)).toEqual(daysOf(notebook));
    expect(animalsOf(session.notebook).map(({ tag }) => tag)).toEqual(
      animalsOf(notebook).map(({ tag }) => tag),
    );
  });

  it('is refused while something is not answered', () => {
    const open = plan('tag,03/04/2026\nA,1\n', herd());
    expect(planToEdit(herd(), open, 'x.csv')).toMatchObject({ fault: 'not-ready' });
  });
});
