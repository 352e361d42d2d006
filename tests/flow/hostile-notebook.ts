import type { Json } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { Notebook, TableName } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { demoNotebook } from '../../src/notebook/demo.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { daysOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };

/** Words that would be markup, a script or a link, were they ever taken for anything but words. */
export const HOSTILE: readonly string[] = [
  '<img src=x onerror="window.hostile=1">',
  '"><script>window.hostile=1</script>',
  'javascript:window.hostile=1',
  "'><svg onload=window.hostile=1>",
  '${window.hostile=1}{{window.hostile=1}}</textarea></style><iframe src="javascript:window.hostile=1">',
];

/** The free words of each table: whatever a person, or a file, can put there. */
const FREE_WORDS: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  about: ['title', 'place', 'herdWord', 'nextSample'],
  animals: ['name', 'leftWhy'],
  columns: ['label', 'help', 'unit'],
  days: ['countedBy', 'fluid'],
  limits: ['label', 'help', 'unit', 'saidBy'],
  figures: ['label', 'unit'],
  blocks: ['title', 'text'],
  products: ['name', 'activeGroup', 'route', 'batch'],
  treatments: ['by', 'note', 'route'],
};

/** The demo with hostile words in every field that takes words: titles, tags, groups, labels, notes, reasons, choices. */
export function hostileNotebook(): Notebook {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  const demo = demoNotebook(template, [1, 0, 'bench'], toStored);
  let at = 0;
  const hostile = (): string => HOSTILE[at++ % HOSTILE.length] ?? '';
  const sets: SetTo[] = [];
  for (const [table, fields] of Object.entries(FREE_WORDS)) {
    const ids = Object.keys(demo[table as TableName]);
    for (const id of ids) {
      const words = Object.fromEntries(fields.map((field) => [field, hostile()]));
      sets.push(...setsOf(table as TableName, id, words));
    }
  }
  const days = daysOf(demo).map(({ id }) => id);
  for (const [number, id] of Object.keys(demo.animals).entries()) {
    sets.push(...setsOf('animals', id, { tag: `${hostile()} ${number}` }));
    sets.push({ path: ['groups', id, days[0] ?? ''], value: HOSTILE[number % 3] ?? '' });
    for (const day of days)
      sets.push({
        path: ['readings', day, id, 'c-note'],
        value: { kind: 'text', text: hostile() },
      });
  }
  const score = Object.keys(demo.columns).find((id) => id === 'c-eyelid');
  if (score) sets.push(...setsOf('columns', score, { words: [...HOSTILE] }));
  for (const day of days) {
    const criteria = (demo.days[day]?.criteria?.[0]?.[0] ?? []).map((criterion) => ({
      ...criterion,
      reason: hostile(),
      saidBy: hostile(),
    }));
    sets.push(...setsOf('days', day, { criteria: criteria as unknown as Json }));
  }
  const id = 'hostile-notebook';
  const edit = { label: hostile(), source: 'typed', sets } as const;
  return { ...applyEdit(demo, edit, [2, 0, 'bench']).notebook, id };
}
