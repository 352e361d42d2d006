import type { Animal } from '../shared/notebook.ts';
import { dateWords } from '../src/text/date-words.ts';
import { say } from '../src/text/say.ts';
import { animalWord } from './animal-words.ts';

/** What is known of an animal on a date, beside its tag: `lambs · lamb · Pip · left 3 Aug, sold`. */
export function animalState(animal: Animal, group: string | undefined, date: string): string {
  const words = [group, animal.class && animalWord(animal.class), animal.name];
  if (animal.left !== undefined && animal.left <= date) {
    const facts = { date: dateWords(animal.left, 'short'), why: animal.leftWhy };
    words.push(animal.leftWhy ? say('left {date}, {why}', facts) : say('left {date}', facts));
  } else if (animal.arrived !== undefined && animal.arrived > date)
    words.push(say('here from {date}', { date: dateWords(animal.arrived, 'short') }));
  return words.filter(Boolean).join(' · ');
}
