import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { clashesOf } from '../../src/notebook/clashes.ts';
import { duplicateName } from '../../src/notebook/duplicate-names.ts';
import {
  readNotebookText,
  salvageNotebookText,
  writeNotebookText,
} from '../../src/notebook/notebook-file.ts';
import { migrate, type Step } from '../../src/notebook/migrate.ts';
import { animalsOf, readingOf } from '../../src/notebook/read.ts';
import { validate } from '../../src/notebook/validate.ts';
import { deepFreeze } from '../freeze.ts';

const v1 = readFileSync(new URL('../fixtures/notebooks/v1.json', import.meta.url), 'utf8');

type Loose = Record<string, Record<string, Record<string, unknown>>>;

/** The first fixture as loose JSON, changed by a test. */
function changed(change: (json: Loose) => void): unknown {
  const json = JSON.parse(v1) as Loose;
  change(json);
  return json;
}

function refused(result: Notebook | Fault): Fault {
  if (!isFault(result)) throw new Error('this should have been refused');
  return result;
}

function opened(result: Notebook | Fault): Notebook {
  if (isFault(result)) throw new Error(result.sentence);
  return result;
}

describe('a file of version 1', () => {
  it('opens for ever, with every kind of reading as it was typed', () => {
    const notebook = opened(readNotebookText(v1));
    expect(animalsOf(notebook).map(({ tag }) => tag)).toEqual(['0012', '12', '982000123456789']);
    const typed = (row: string, column: string): string | undefined =>
      readingOf(notebook, '2026-05-03', row, column)?.text;
    expect(typed('a-1', 'c-part1')).toBe('3/6');
    expect(typed('a-1', 'c-weight')).toBe('91 lb');
    expect(typed('a-1', 'c-note')).toBeUndefined();
    expect(typed('a-2', 'c-chamber2')).toBe('TNTC');
    expect(typed('a-3', 'c-chamber1')).toBe('12?');
    expect(clashesOf(notebook)).toHaveLength(1);
  });

  it('is written again just as it was', () => {
    expect(writeNotebookText(opened(readNotebookText(v1)))).toBe(v1);
  });
});

describe('writeNotebookText(notebook) and readNotebookText(text)', () => {
  it('give back the same notebook, whatever was typed into it', () => {
    const text = fc.string({ unit: 'binary', maxLength: 12 });
    fc.assert(
      fc.property(text, text, fc.nat(99), (tag, note, value) => {
        const json = changed((n) => {
          n['animals']!['a-1']!['tag'] = [[`T${tag}`, [5, 0, 'd']]];
          n['readings']!['2026-05-03']!['a-1'] = {
            n: [[{ kind: 'text', text: note }, [6, 0, 'd']]],
            c: [[{ kind: 'number', text: `${value}`, value }, [7, 0, 'd']]],
          };
        });
        const notebook = deepFreeze(opened(validate(json)));
        expect(readNotebookText(writeNotebookText(notebook))).toEqual(notebook);
      }),
      { numRuns: 30 },
    );
  });

  it('never throw, whatever the bytes of the file are', () => {
    fc.assert(
      fc.property(fc.nat(v1.length), fc.nat(40), fc.string({ maxLength: 8 }), (at, cut, put) => {
        const damaged = v1.slice(0, at) + put + v1.slice(at + cut);
        const result = readNotebookText(damaged);
        if (isFault(result)) expect(result.sentence).toMatch(/[.…]$/);
        else expect(readNotebookText(writeNotebookText(result))).toEqual(result);
      }),
      { numRuns: 400 },
    );
  });
});

describe('readNotebookText(text) refuses with a sentence', () => {
  const kind = (text: string): string => refused(readNotebookText(text)).fault;

  it('a file that is empty, not JSON, cut off, or something else', () => {
    expect(kind('  \n')).toBe('empty-file');
    expect(kind('tag,count\nA1,5\n')).toBe('not-json');
    expect(kind(v1.slice(0, 900))).toBe('damaged-file');
    for (const text of ['3', 'null', '[]', '{}', '{"format":"table"}'])
      expect(kind(text)).toBe('not-a-notebook');
    expect(kind('{"format":"sampling-daybook-template","version":1}')).toBe(
      'template-not-notebook',
    );
  });

  it('a file of a newer version, and says to update', () => {
    const newer = refused(validate(changed((n) => Object.assign(n, { version: 2 }))));
    expect(newer.fault).toBe('newer-version');
    expect(newer.sentence).toContain('newer');
    expect(refused(validate(changed((n) => Object.assign(n, { language: 2 })))).fault).toBe(
      'newer-version',
    );
    expect(refused(validate(changed((n) => Object.assign(n, { version: '1' })))).fault).toBe(
      'no-version',
    );
  });

  it('a name that stands twice, since one of the two animals would be dropped', () => {
    const twice = v1.replace('"animals": {', '"animals": {"a-1":{"tag":[["77",[1,0,"d"]]]},');
    const { fault, sentence } = refused(readNotebookText(twice));
    expect(fault).toBe('name-twice');
    expect(sentence).toContain('animals › a-1:');
  });

  it('an animal twice, naming both', () => {
    const json = changed((n) => {
      n['animals']!['a-2']!['tag'] = [['982 000123456789', [5, 0, 'd']]];
    });
    const { fault, sentence } = refused(validate(json));
    expect(fault).toBe('animal-twice');
    expect(sentence).toContain('a-2 as 982 000123456789');
    expect(sentence).toContain('a-3 as 982000123456789');
  });

  it('but not two animals with one tag of which one is removed, or that are kept apart', () => {
    const removed = changed((n) => {
      n['animals']!['a-2'] = {
        tag: [['0012', [5, 0, 'd']]],
        removed: [[true, [6, 0, 'd']]],
      };
    });
    expect(isFault(validate(removed))).toBe(false);
    const apart = changed((n) => {
      n['animals']!['a-2']!['tag'] = [['0012', [5, 0, 'd']]];
      for (const id of ['a-1', 'a-2']) n['animals']![id]!['keptApart'] = [[true, [6, 0, 'd']]];
    });
    expect(isFault(validate(apart))).toBe(false);
  });
});

describe('validate(json) names the place, in tags and column names', () => {
  const stamp = [5, 0, 'd'];
  const wrong: readonly [string, (json: Loose) => void, string][] = [
    [
      'a reading that is a bare number',
      (n) =>
        (((n['readings']!['2026-05-03'] as Loose)['a-3'] as never)['c-chamber1'] = [
          [12, stamp],
        ] as never),
      'readings › 2026-05-03 › 982000123456789 › chamber1: something typed, with its kind, its text and, for a number, its value, was expected, and 12 stands there.',
    ],
    [
      'a tag that is a number',
      (n) => (n['animals']!['a-2']!['tag'] = [[12, stamp]]),
      'animals › a-2 › tag: text was expected, and 12 stands there.',
    ],
    [
      'a species there is no line for',
      (n) => (n['animals']!['a-1']!['species'] = [['cow', stamp]]),
      'animals › 0012 › species: one of "sheep", "goat" was expected, and "cow" stands there.',
    ],
    [
      'a date that the calendar does not have',
      (n) => (n['days']!['2026-05-03']!['date'] = [['2026-02-30', stamp]]),
      'days › 2026-05-03 › date: a day of the calendar, written like 2026-05-03, was expected, and "2026-02-30" stands there.',
    ],
    [
      'a day with a name of its own',
      (n) => (n['readings']!['May'] = {}),
      'readings › May: the name of a sampling day, like 2026-05-03 or 2026-05-03-evening, was expected as the name.',
    ],
    [
      'a cell without a stamp',
      (n) => (n['animals']!['a-1']!['name'] = 'Willow'),
      'animals › 0012 › name: a list of values with their stamps was expected, and "Willow" stands there.',
    ],
    [
      'a stamp without a device',
      (n) => (n['animals']!['a-1']!['name'] = [['Willow', [5, 0]]]),
      'animals › 0012 › name: a value with its stamp (milliseconds, counter, device) was expected, and ["Willow",[5,0]] stands there.',
    ],
    [
      'a table that is a list',
      (n) => (n['animals'] = [] as never),
      'animals: a table of named things was expected, and [] stands there.',
    ],
    [
      'a limit that is text',
      (n) => (n['settings']!['default']!['l-treat_from'] = [['500', stamp]]),
      'settings › default › l-treat_from: a number was expected, and "500" stands there.',
    ],
    [
      'a criterion without a condition',
      (n) => (n['days']!['2026-05-03']!['criteria'] = [[[{ id: 'k' }], stamp]]),
      'days › 2026-05-03 › criteria: a list of criteria, each with id, reason and condition, was expected, and [{"id":"k"}] stands there.',
    ],
  ];
  for (const [what, change, sentence] of wrong)
    it(what, () => {
      expect(refused(validate(changed(change))).sentence).toBe(sentence);
    });

  it('and says how many more places are wrong', () => {
    const json = changed((n) => {
      for (const id of ['a-1', 'a-2', 'a-3']) n['animals']![id]!['name'] = [[7, stamp]];
    });
    expect(refused(validate(json)).sentence).toMatch(
      /^animals › 0012 › name: .* 2 more places are wrong\.$/,
    );
  });
});

describe('validate(json) keeps what it does not know, and is not led astray by names', () => {
  it('tables and fields of a later program stay as they are', () => {
    const json = changed((n) => {
      n['weather'] = { '2026-05-03': { rain: 4 } };
      n['animals']!['a-1']!['colour'] = [[{ shade: 'brown' }, [5, 0, 'd']]];
    });
    const notebook = opened(validate(json)) as unknown as Loose;
    expect(notebook['weather']).toEqual({ '2026-05-03': { rain: 4 } });
    expect(notebook['animals']!['a-1']!['colour']).toEqual([[{ shade: 'brown' }, [5, 0, 'd']]]);
  });

  it('an animal called __proto__ is refused, and gives nothing to other objects', () => {
    const text = v1.replace('"a-1":{"tag"', '"__proto__":{"tag"');
    const { sentence } = refused(readNotebookText(text));
    expect(sentence).toMatch(/^animals › __proto__: /);
    expect(({} as Record<string, unknown>)['tag']).toBeUndefined();
  });

  it('an animal called constructor is an animal', () => {
    const text = v1.replaceAll('"a-1"', '"constructor"');
    const notebook = opened(readNotebookText(text));
    expect(animalsOf(notebook).map(({ id }) => id)).toContain('constructor');
  });

  it('a notebook cannot pose as a fault', () => {
    const json = changed((n) => Object.assign(n, { fault: 'x', sentence: 'Send money.' }));
    expect(refused(validate(json)).sentence).not.toContain('money');
  });
});

describe('salvageNotebookText(text)', () => {
  it('opens what can be read, and lists the rest as it stands', () => {
    const json = changed((n) => {
      n['animals']!['a-1']!['species'] = [['cow', [5, 0, 'd']]];
      n['animals']!['a-2']!['tag'] = [['0012', [5, 0, 'd']]];
    });
    const read = salvageNotebookText(JSON.stringify(json));
    if (isFault(read)) return expect.unreachable(read.sentence);
    expect(read.problems).toMatchObject([
      { place: 'animals › 0012 › species', raw: 'cow' },
      { place: 'animals › 0012 › tag', kind: 'animal-twice' },
    ]);
    expect(animalsOf(read.notebook)).toHaveLength(3);
    expect(isFault(validate(read.notebook))).toBe(false);
  });
});

describe('migrate(json, steps, present)', () => {
  const old = { format: 'sampling-daybook', version: 1, id: 'n', herd: ['A1'] };
  const steps = new Map<number, Step>([
    [1, (n) => ({ ...n, animals: n['herd'] })],
    [2, ({ herd: _, ...n }) => ({ ...n, language: 2 })],
  ]);

  it('takes the steps in order, one version at a time', () => {
    expect(migrate(old, steps, 3)).toEqual({
      format: 'sampling-daybook',
      version: 3,
      id: 'n',
      animals: ['A1'],
      language: 2,
    });
    expect(migrate({ ...old, version: 3 }, steps, 3)).toEqual({ ...old, version: 3 });
  });

  it('is a fault for a newer version and where a step is missing', () => {
    expect(migrate({ ...old, version: 4 }, steps, 3)).toMatchObject({ fault: 'newer-version' });
    expect(migrate(old, new Map(), 2)).toMatchObject({ fault: 'version-lost' });
  });
});

describe('duplicateName(json)', () => {
  it('finds a name that stands twice in one object, however it is written', () => {
    expect(duplicateName('{"a":{"x":1,"x":2}}')).toEqual(['a', 'x']);
    expect(duplicateName('{"b":[{"\\u0061":1,"a":2}]}')).toEqual(['b', 'a']);
    expect(duplicateName('{"a":1,"b":{"a":["a","a",":"]},"c":"{\\"a\\":1,\\"a\\":2}"}')).toBeNull();
  });

  it('finds none in anything that was written from an object', () => {
    fc.assert(fc.property(fc.jsonValue(), (v) => duplicateName(JSON.stringify(v)) === null));
  });
});
