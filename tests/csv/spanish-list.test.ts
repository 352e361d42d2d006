import { beforeAll, describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import type { ImportPlan } from '../../src/csv/import-plan.ts';
import { speak } from '../../src/text/say.ts';

/** Words are gathered as modules load, so the language is fixed before. */
let plan: (text: string) => ImportPlan;
let typedIn: (key: string) => string;

beforeAll(async () => {
  speak({
    language: 'es',
    locale: 'es-PE',
    sentences: {
      'not sampled': 'sin muestra',
      'too many': 'demasiados',
      yes: 'sí',
      '{first} or {second}': '{first} o {second}',
      '"{text}" in the headings can be {dates}. Which comes first in this list?':
        '"{text}" puede ser {dates}. ¿Qué va primero?',
    },
  });
  const [{ planNow }, { readTable }, { summerNotebook }, { columnByKey }] = await Promise.all([
    import('../../src/csv/plan-import.ts'),
    import('../../src/csv/read-table.ts'),
    import('../build-notebook.ts'),
    import('../../src/notebook/read.ts'),
  ]);
  const notebook: Notebook = summerNotebook({});
  plan = (text) => {
    let ids = 0;
    return planNow(readTable(text), notebook, { newId: () => `new-${(ids += 1)}` });
  };
  typedIn = (key) => columnByKey(notebook, key)?.id ?? '';
});

describe('a list in Spanish', () => {
  it('is read: headings, classes, and words in the place of a count', () => {
    const { animals, readings, problems } = plan(
      'Arete;Clase;Especie;Fecha;Recuento;jaw\nA1;ovejas;ovino;2026-05-20;sin muestra;\n' +
        'A2;capón;caprino;2026-05-20;demasiados;sí\nA3;cabrito;;2026-05-20;Spoilt;\n',
    );
    expect(problems.filter(({ what }) => what === 'left out')).toEqual([]);
    expect(animals.map(({ tag, facts }) => [tag, facts.class, facts.species])).toEqual([
      ['A1', 'ewe', 'sheep'],
      ['A2', 'wether', 'goat'],
      ['A3', 'kid', 'goat'],
    ]);
    const day = readings.get('2026-05-20');
    const value = (row: string, key: string) => day?.get(row)?.get(typedIn(key))?.value;
    // Stored by the English code, so that formulas and files of every language agree.
    expect(value('new-1', 'status')?.text).toBe('not sampled');
    expect(value('new-1', 'chamber1')).toBeUndefined();
    expect(value('new-2', 'chamber1')).toMatchObject({ kind: 'too-many', text: 'too many' });
    expect(value('new-2', 'jaw')).toMatchObject({ kind: 'tick', value: true });
    expect(value('new-3', 'status')?.text).toBe('spoiled');
  });

  it('is asked about in Spanish, with dates as they are written there', () => {
    expect(plan('arete;03/04/2026\nA1;5\n').questions[0]?.sentence).toBe(
      '"03/04/2026" puede ser 3 de abril de 2026 o 4 de marzo de 2026. ¿Qué va primero?',
    );
  });
});
