import type { Animal } from '../../shared/notebook.ts';
import { atLeast } from '../stats/at-least.ts';
import { daysBetween } from '../text/date.ts';
import { isYoung } from './animal-kind.ts';
import { shortNumber } from './short-number.ts';
import type { DoseWeight } from './weighing.ts';
import { dateWords } from '../text/date-words.ts';
import { writeNumber, type DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** No sheep or goat is heavier; a weight above this is a slip of the keys. */
export const HEAVIEST_KG = 400;
/** A weight of a lamb or kid older than this asks: they grow from week to week (own choice). */
export const YOUNG_WEIGHT_DAYS = 14;
/** A weight this share off the one before asks (own choice). */
export const WEIGHT_JUMP = 0.3;

/** Why no dose can be worked out from this weight; `null` when one can. */
export function weightStop(
  animal: Animal,
  weight: DoseWeight | null,
  mark: DecimalMark = '.',
): string | null {
  if (!weight)
    return say('{tag} has no weight: weigh it first. A guessed weight runs low.', {
      tag: animal.tag,
    });
  if (!(Number.isFinite(weight.kg) && weight.kg > 0))
    return say('{tag}: a weight of {kg} kg cannot be. Type what the scale showed.', {
      tag: animal.tag,
      kg: Number.isFinite(weight.kg) ? writeNumber(weight.kg, mark) : String(weight.kg),
    });
  if (weight.kg > HEAVIEST_KG)
    return say('{tag}: {weight} kg is heavier than any sheep or goat. Check the digits.', {
      tag: animal.tag,
      weight: shortNumber(weight.kg, 2, mark),
    });
  return null;
}

/** What to ask about a weight that a dose can be worked out from; a question never stops. */
export function weightQuestions(
  animal: Animal,
  weight: DoseWeight,
  date: string,
  mark: DecimalMark = '.',
): readonly string[] {
  const questions: string[] = [];
  const age = daysBetween(weight.date, date);
  if (typeof age === 'number' && age > YOUNG_WEIGHT_DAYS && isYoung(animal, date))
    questions.push(
      say(
        '{tag} was weighed {days, plural, one {# day} other {# days}} ago ({date}) and is growing: weigh it again?',
        {
          tag: animal.tag,
          days: age,
          date: dateWords(weight.date),
        },
      ),
    );
  const { before } = weight;
  if (before && before.kg > 0 && atLeast(Math.abs(weight.kg - before.kg), WEIGHT_JUMP * before.kg))
    questions.push(
      say('{tag} weighed {before} kg on {beforeDate} and {now} kg on {nowDate}: is that right?', {
        tag: animal.tag,
        before: shortNumber(before.kg, 1, mark),
        beforeDate: dateWords(before.date),
        now: shortNumber(weight.kg, 1, mark),
        nowDate: dateWords(weight.date),
      }),
    );
  return questions;
}
