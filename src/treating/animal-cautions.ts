import type { Animal, Notebook } from '../../shared/notebook.ts';
import type { Outcome } from '../notebook/outcome.ts';
import { signColumn, dayOf, readingOf } from '../notebook/read.ts';
import { daysAfterTreatment, isStillHigh } from './after-treatment.ts';
import { isYoung, speciesOf } from './animal-kind.ts';
import { eyelidOf, PALE_FROM, scoreOf } from './herd-alarm.ts';
import { limitByKey } from './limit-by-key.ts';
import { say } from '../text/say.ts';

/** From this dag score on (of 5) an animal scours (own choice). */
export const SCOURING_FROM = 3;
/** Below this condition score an animal is thin. */
export const THIN_BELOW = 2;

/**
 * What to keep in mind about one animal, in the order of urgency. Each is said only where this animal gives
 * the occasion; what holds for everyone stands beside the whole list.
 */
export function animalCautions(
  notebook: Notebook,
  dayId: string,
  animal: Animal,
  outcome: Outcome,
  epg: number | null,
): readonly string[] {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const said: string[] = [];
  const eyelid = eyelidOf(notebook, dayId, animal.id);
  const limit = limitByKey(notebook, dayId, 'treat_from');
  const isPale = eyelid !== null && eyelid >= PALE_FROM;
  if (isPale && (epg === null || (limit !== undefined && epg < limit)))
    said.push(
      say(
        'Pale whatever the count: an emergency. Worms too young to lay, liver fluke and other causes do not show in this count.',
      ),
    );
  if (isTicked(notebook, dayId, animal.id, 'jaw'))
    said.push(say('Bottle jaw is a late sign: treat, and see the vet.'));
  const dag = scoreOf(notebook, dayId, animal.id, 'dag');
  const condition = scoreOf(notebook, dayId, animal.id, 'condition');
  const isScouring = dag !== null && dag >= SCOURING_FROM;
  const isThin = condition !== null && condition < THIN_BELOW;
  if (outcome.kind !== 'over' && (isScouring || isThin))
    said.push(
      isScouring
        ? say('It scours: good eyelids and a low count do not clear it.')
        : say('It is thin: good eyelids and a low count do not clear it.'),
    );
  const days = daysAfterTreatment(notebook, animal.id, date);
  if (isStillHigh(notebook, dayId, animal.id, epg))
    said.push(
      say(
        'Still high after treatment {days, plural, one {# day} other {# days}} ago: was it dosed by weight? Ask your vet before you use the same product again.',
        { days: days ?? 0 },
      ),
    );
  else if (days !== undefined)
    said.push(
      say(
        'Treated {days, plural, one {# day} other {# days}} ago: this count shows the treatment, not the animal.',
        { days },
      ),
    );
  if (epg === 0) said.push(say('No egg seen: not free of worms.'));
  if (outcome.kind === 'below' && isYoung(animal, date))
    said.push(say('Young stock can be ill before the worms lay eggs.'));
  if (outcome.kind === 'over' && speciesOf(animal) === 'goat')
    said.push(say('A goat often needs another dose than a sheep: ask your vet.'));
  if (outcome.kind === 'over' && (animal.stage === 'pregnant' || animal.stage === 'late pregnant'))
    said.push(say('Pregnant: some products must not be given now. Read the label.'));
  return said;
}

function isTicked(notebook: Notebook, dayId: string, animalId: string, key: string): boolean {
  const column = signColumn(notebook, key);
  const reading = column && readingOf(notebook, dayId, animalId, column.id);
  return reading?.kind === 'tick' && reading.value;
}
