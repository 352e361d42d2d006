import type { SeasonGroup, SeasonMean } from '../src/treating/season-means.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import { say } from '../src/text/say.ts';

type Mark = '.' | ',';

/** `lambs`, `all animals` */
export function groupWords({ group }: Pick<SeasonGroup, 'group'>): string {
  return group ?? say('all animals');
}

/** One line of the season read out: `lambs: 120 epg on 3 May (14 of 19 counted), …` */
export function seasonSentence(line: SeasonGroup, mark: Mark): string {
  const counted = line.means.filter(({ mean }) => mean !== null);
  if (counted.length === 0)
    return say('{group}: no ordinary counts yet.', { group: groupWords(line) });
  const year = counted[0]?.date.slice(0, 4);
  const parts = counted.map((point) => pointWords(point, year, mark));
  return say('{group}: {means}.', { group: groupWords(line), means: parts.join(', ') });
}

function pointWords(point: SeasonMean, year: string | undefined, mark: Mark): string {
  const epg = figureText(point.mean ?? NaN, 0, mark);
  return say(
    '{bound, select, least {at least {epg} epg} other {{epg} epg}} on {day} ({counted} of {present} counted{tooMany, plural, =0 {} other {, # too many to count left out}})',
    {
      bound: point.tooMany === 0 ? 'none' : 'least',
      epg,
      day: dayWords(point, 'long', year),
      counted: point.counted,
      present: point.present,
      tooMany: point.tooMany,
    },
  );
}

/** `All animals: 210 epg on 3 May, 480 epg on 19 July.` The first and the newest day of a line. */
export function seasonHeadline(line: SeasonGroup, mark: Mark): string {
  const counted = line.means.filter(({ mean }) => mean !== null);
  const [first, last] = [counted[0], counted.at(-1)];
  if (!first || !last) return say('No counts in this season yet.');
  const said = (point: SeasonMean): string =>
    say('{bound, select, least {at least {epg} epg} other {{epg} epg}} on {day}', {
      bound: point.tooMany > 0 ? 'least' : 'none',
      epg: figureText(point.mean ?? NaN, 0, mark),
      day: dayWords(point, 'long', first.date.slice(0, 4)),
    });
  const days = counted.length === 1 ? said(first) : `${said(first)}, ${said(last)}`;
  return say('Mean of {group}: {days}.', { group: groupWords(line), days });
}

/** What the lines leave out; empty when nothing is. */
export function apartSentence(all: SeasonGroup): string {
  const apart = all.means.reduce((sum, { afterCounted }) => sum + afterCounted, 0);
  if (apart === 0) return '';
  return say(
    '{n, plural, one {# count} other {# counts}} soon after a treatment left out of the lines and the ranking, drawn apart (◇).',
    { n: apart },
  );
}
