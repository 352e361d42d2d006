import type { DayId } from '../../shared/ref.ts';
import { dateWords } from '../text/date-words.ts';

/** A sampling day in a sentence, from its id: `3 May 2026 evening`. */
export function samplingDayWords(id: DayId): string {
  return `${dateWords(id.slice(0, 10))} ${id.slice(11).replace(/-/g, ' ')}`.trim();
}
