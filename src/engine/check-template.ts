import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { applyEdit } from '../notebook/apply-edit.ts';
import { addDay } from '../notebook/edit-days.ts';
import { fromTemplate } from '../notebook/from-template.ts';
import { validate } from '../notebook/validate.ts';
import { checkFormula } from './check-formula.ts';
import { toStored } from './stored-formula.ts';
import { say } from '../text/say.ts';

/**
 * Whether a notebook can be started from a template that came from elsewhere: every fact has its right
 * kind, and every formula of a column, figure or criterion can be worked out. Null, or a sentence that
 * names the one that is wrong. `readTemplate` has found its shape right before.
 */
export function checkTemplate(template: Template): Fault | null {
  const started = fromTemplate(template, {
    id: 'tried',
    title: template.name,
    stamp: [1, 0, 'tried'],
    bind: toStored,
  });
  const sound = validate(started);
  if (isFault(sound))
    return wrong(say('In this template, {sentence}', { sentence: sound.sentence }));
  const { notebook, day } = withDay(started);
  for (const { kind, key, label, formula } of template.columns) {
    if (kind === 'formula' && (formula ?? '') === '')
      return wrong(
        say('In this template, the column “{label}” ({key}) has no formula.', { label, key }),
      );
    if (kind !== 'formula' && formula !== undefined && formula !== '')
      return wrong(
        say(
          'In this template, the column “{label}” ({key}) has a formula, but is none by its kind.',
          { label, key },
        ),
      );
    if (formula === undefined || formula === '') continue;
    const found = checkFormula(notebook, day, formula, 'column', key);
    if (found)
      return wrong(
        say('In this template, the formula of the column “{label}” ({key}) is wrong: {sentence}', {
          label,
          key,
          sentence: found.sentence,
        }),
      );
  }
  for (const { key, label, formula } of template.figures) {
    const found = checkFormula(notebook, day, formula, 'figure', key);
    if (found)
      return wrong(
        say('In this template, the formula of the figure “{label}” ({key}) is wrong: {sentence}', {
          label,
          key,
          sentence: found.sentence,
        }),
      );
  }
  for (const { reason, condition, ready } of template.criteria) {
    if (condition === '' && ready !== undefined) continue;
    const found = checkFormula(notebook, day, condition, 'criterion');
    if (found)
      return wrong(
        say('In this template, the formula of the criterion “{reason}” is wrong: {sentence}', {
          reason,
          sentence: found.sentence,
        }),
      );
  }
  return null;
}

/** A day to try the formulas on; which one makes no difference. */
function withDay(started: Notebook): { readonly notebook: Notebook; readonly day: string } {
  const added = addDay(started, '2026-05-03', '');
  if (isFault(added)) throw new Error(added.sentence);
  const { notebook } = applyEdit(started, added.edit, [2, 0, 'tried']);
  return { notebook, day: added.id };
}

function wrong(sentence: string): Fault {
  return fault('bad-template', sentence);
}
