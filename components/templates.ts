import type { Template } from '../shared/template.ts';
import { templateInLanguage } from '../src/notebook/template-in-language.ts';
import { say } from '../src/text/say.ts';

/** A template as the list shows it; the whole of it is fetched when it is chosen. */
export interface TemplateLine {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  /** One that comes with the program is in the language spoken; a person's own is as typed. */
  readonly load: () => Promise<Template>;
}

type Loaded = Promise<{ readonly default: unknown }>;

function line(id: string, name: string, purpose: string, load: () => Loaded): TemplateLine {
  const inLanguage = async (): Promise<Template> =>
    templateInLanguage((await load()).default as Template);
  return { id, name, purpose, load: inLanguage };
}

/**
 * The season templates that come with the program, in the order offered: the year of an ordinary farm
 * first, then what is done now and then. Names and purposes stand here once more, so that the list
 * shows without fetching nine seasons; a test holds them to the files.
 */
export const templates: readonly TemplateLine[] = [
  line(
    'summer-grazing',
    say('Summer grazing'),
    say(
      'Ewes, lambs and goats at grass from early summer on, sampled every few weeks while worms build up.',
    ),
    () => import('../templates/summer-grazing.json'),
  ),
  line(
    'lambing-and-kidding',
    say('Lambing and kidding'),
    say(
      'Ewes and does in the weeks around birth, when their counts rise and foul the pasture for the young.',
    ),
    () => import('../templates/lambing-and-kidding.json'),
  ),
  line(
    'early-summer-lambs',
    say('Early summer lambs'),
    say(
      'Lambs and kids in their first weeks at grass, when nematodirus and coccidia come before the other worms.',
    ),
    () => import('../templates/early-summer-lambs.json'),
  ),
  line(
    'young-stock-before-weaning',
    say('Young stock before weaning'),
    say(
      'Lambs and kids in the weeks before they leave their mothers: weights, counts, and which to help first.',
    ),
    () => import('../templates/young-stock-before-weaning.json'),
  ),
  line(
    'barbers-pole-season',
    say('Warm wet weeks with barber’s pole worm'),
    say(
      'Sheep and goats where barber’s pole worm is about: eyelids every two weeks, counts beside them.',
    ),
    () => import('../templates/barbers-pole-season.json'),
  ),
  line(
    'autumn-and-housing',
    say('Autumn and housing'),
    say('The last grazing weeks and the day the animals come in: what they carry into winter.'),
    () => import('../templates/autumn-and-housing.json'),
  ),
  line(
    'dewormer-check',
    say('Dewormer check'),
    say(
      'Does the dewormer still work? The same animals counted before the dose and some days after.',
    ),
    () => import('../templates/dewormer-check.json'),
  ),
  line(
    'quarantine',
    say('Bought-in animals in quarantine'),
    say(
      'New arrivals, kept apart until it is known that they bring no worms that your dewormers no longer kill.',
    ),
    () => import('../templates/quarantine.json'),
  ),
  line(
    'breeding-choice',
    say('Breeding choice'),
    say(
      'At the end of the season: which animals to keep, from what they shed and how they bore it over the year.',
    ),
    () => import('../templates/breeding-choice.json'),
  ),
];
