import { say } from '../src/text/say.ts';

/**
 * Goes to the first date or time of a form that has some of its parts and lacks others, and says so; '' where each is
 * whole or empty. Its field hands out such a one as empty, so it is asked for before any field is read.
 */
export function askForWholeDate(form: ParentNode): string {
  const dates = form.querySelectorAll<HTMLInputElement>('input[type="date"], input[type="time"]');
  const half = [...dates].find(({ validity }) => validity.badInput);
  half?.focus();
  if (!half) return '';
  return half.type === 'date'
    ? say('This date is not whole: type day, month and year, or empty it.')
    : say('This time is not whole: type hour and minute, or empty it.');
}
