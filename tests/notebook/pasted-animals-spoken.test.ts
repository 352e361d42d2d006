import { beforeAll, expect, it } from 'vitest';
import type * as PastedAnimals from '../../src/notebook/pasted-animals.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { speak } from '../../src/text/say.ts';

/** The words are gathered as the module loads, so the language is fixed before. */
let pasted: typeof PastedAnimals;

beforeAll(async () => {
  speak({
    language: 'es',
    locale: 'es-PE',
    sentences: { ewe: 'oveja', wether: 'capón', kid: 'cabrito' },
  });
  pasted = await import('../../src/notebook/pasted-animals.ts');
});

it('a pasted list names classes in the language spoken or in English, one or many', () => {
  const list = ['A\tlote\tOveja', 'B\tlote\tcabritos', 'C\tlote\tcapones', 'D\tlote\tewes'];
  const found = pasted.readPastedAnimals(emptyNotebook('n'), list.join('\n'));
  expect(found.map((animal) => animal.class)).toEqual(['ewe', 'kid', 'wether', 'ewe']);
});

it('a word that is no class of either language is said and left out', () => {
  const [animal] = pasted.readPastedAnimals(emptyNotebook('n'), 'A\tlote\tburro');
  expect(animal).toMatchObject({ class: null, isNew: true });
  expect(animal?.remark).toContain('"burro"');
});
