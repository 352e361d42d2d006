import type { Reach } from '../src/notebook/edit-days.ts';
import { say } from '../src/text/say.ts';

/** Which days a change reaches, as it stands in the name of the change: `the criteria, every day`. */
export const reachWords: Readonly<Record<Reach, string>> = {
  'from this day on': say('from this day on'),
  'only this day': say('only this day'),
  'every day': say('every day'),
};
