import { isFault, fault, type Fault } from '../../shared/value.ts';
import { dayId, parseDayId } from '../text/day-id.ts';

/** What `npm run recalc` was asked to do. */
export interface RecalcOptions {
  /** A template's id, or the path of a template file. */
  readonly template: string;
  readonly from: string;
  readonly to: string;
  /** The sampling day of a list that names none. */
  readonly day: string | null;
  readonly place: string;
  readonly answers: ReadonlyMap<string, string>;
  /** `guarded` marks tags that a spreadsheet would change; `plain`, the usual one, is for databases. */
  readonly tags: 'plain' | 'guarded';
}

export const usage = [
  'Use: npm run -s recalc -- --template summer-grazing --import counts.csv --export out.csv',
  '  --template ID or FILE  the season: one of the templates, or a template file',
  '  --import FILE          a list with tag, date and column keys (or a date as heading)',
  '  --export FILE          where to write the tidy CSV',
  '  --day 2026-05-03       the sampling day of a list that names none',
  '  --place "Hill Farm"    written into the place column where the list has none',
  '  --answer ID=CHOICE     answers what a list leaves open; the question names its choices',
  '  --plain-tags           tags as they are, for a database (usual)',
  "  --guarded-tags         a ' in front of tags that a spreadsheet would change",
].join('\n');

const withValue = ['--template', '--import', '--export', '--day', '--place', '--answer'] as const;

/** Reads the words of the command line. The fault's sentence ends with how to use it. */
export function recalcOptions(words: readonly string[]): RecalcOptions | Fault {
  const given = new Map<string, string>();
  const answers = new Map<string, string>();
  let tags: RecalcOptions['tags'] = 'plain';
  for (let i = 0; i < words.length; i += 1) {
    const [name = '', ...rest] = (words[i] ?? '').split('=');
    if (name === '--plain-tags' || name === '--guarded-tags') {
      tags = name === '--plain-tags' ? 'plain' : 'guarded';
      continue;
    }
    if (!withValue.some((known) => known === name))
      return wrong(`"${words[i] ?? ''}" is not understood.`);
    const value = rest.length > 0 ? rest.join('=') : words[(i += 1)];
    if (value === undefined || (rest.length === 0 && value.startsWith('--')))
      return wrong(`${name} needs something behind it.`);
    if (name === '--answer') {
      const [id = '', ...choice] = value.split('=');
      if (choice.length === 0) return wrong(`--answer ${value} has no choice. Write ID=CHOICE.`);
      answers.set(id, choice.join('='));
    } else if (given.has(name)) {
      return wrong(`${name} stands twice. Give it once.`);
    } else {
      given.set(name, value);
    }
  }
  for (const name of ['--template', '--import', '--export'])
    if (!given.has(name)) return wrong(`${name} is missing.`);
  const day = readDay(given.get('--day'));
  if (isFault(day)) return day;
  return {
    template: given.get('--template') ?? '',
    from: given.get('--import') ?? '',
    to: given.get('--export') ?? '',
    day,
    place: given.get('--place') ?? '',
    answers,
    tags,
  };
}

function readDay(text: string | undefined): string | null | Fault {
  if (text === undefined) return null;
  const name = parseDayId(text);
  return isFault(name) ? wrong(`--day: ${name.sentence}`) : dayId(name.date, name.label);
}

function wrong(sentence: string): Fault {
  return fault('usage', `${sentence}\n${usage}`);
}
