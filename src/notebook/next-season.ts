import type { SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { applyEdit } from './apply-edit.ts';
import { fromTemplate, type Making } from './from-template.ts';
import { groupOn } from './present.ts';
import { aboutOf, animalsOf, productsOf } from './read.ts';
import { setsOf } from './record-sets.ts';

/**
 * A new season from a template: the animals still here on `from`, the groups they are in that day,
 * and the products are carried over with their ids; old sampling days stay in the old notebook.
 */
export function nextSeason(
  old: Notebook,
  template: Template,
  making: Making,
  from: string,
): Notebook {
  const start = fromTemplate(template, making);
  const staying = animalsOf(old).filter((a) => a.left === undefined || from < a.left);
  const { herdWord, weightUnit, decimalMark, keepUntreated } = aboutOf(old);
  const sets: SetTo[] = [
    ...setsOf('about', 'notebook', { herdWord, weightUnit, decimalMark, keepUntreated }),
    ...staying.flatMap(({ id, ...facts }) => {
      const group = groupOn(old, id, from);
      return [
        ...setsOf('animals', id, facts),
        ...(group === undefined ? [] : [{ path: ['groups', id, from] as const, value: group }]),
      ];
    }),
    ...productsOf(old).flatMap(({ id, ...facts }) => setsOf('products', id, facts)),
  ];
  const edit = { label: 'carrying over', source: 'template' as const, sets };
  return applyEdit(start, edit, making.stamp).notebook;
}
