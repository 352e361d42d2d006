import type { AnimalClass, Species } from '../../shared/notebook.ts';
import { say } from '../text/say.ts';

/** One reason of a ready set; its condition is in the names that the templates share. */
export interface ReadyCriterion {
  readonly reason: string;
  readonly condition: string;
  readonly ready?: 'too-many';
  readonly classes?: readonly AnimalClass[];
  readonly mustBeKnown?: boolean;
}

/** Reasons to start from, the most dangerous first. */
export interface ReadySet {
  readonly id: string;
  readonly name: string;
  readonly species: Species;
  /** What sets it apart, in one sentence. */
  readonly about: string;
  readonly criteria: readonly ReadyCriterion[];
}

/** Who said so, for every reason of a ready set, until a person puts a vet's name there. */
export const READY_SAID_BY = say('an example: set it with your vet');

const WHITE: ReadyCriterion = { reason: say('white eyelids (5)'), condition: 'eyelid = 5' };
const JAW: ReadyCriterion = { reason: say('bottle jaw'), condition: 'jaw' };
const PALE: ReadyCriterion = { reason: say('pale eyelids (4)'), condition: 'eyelid = 4' };
const THREE: ReadyCriterion = { reason: say('eyelids 3'), condition: 'eyelid = 3' };
const THIN_AND_THREE: ReadyCriterion = {
  reason: say('thin, with eyelids 3'),
  condition: 'AND(condition < 2, eyelid = 3)',
};
const SCOURING_AND_THREE: ReadyCriterion = {
  reason: say('scouring, with eyelids 3'),
  condition: 'AND(dag >= 3, eyelid = 3)',
};
const TOO_MANY: ReadyCriterion = {
  reason: say('too many eggs to count'),
  condition: '',
  ready: 'too-many',
};
const AT_LIMIT: ReadyCriterion = {
  reason: say('epg at your limit or more'),
  condition: 'epg >= treat_from',
  mustBeKnown: true,
};

/**
 * Sets of criteria to start from, for sheep and goats, where barber's pole worm is rare and where it is common.
 * Examples to be set with a vet.
 *
 * Source: treat eyelid colour 4 and 5 always, 3 only with a further sign (a buck test's rule of 2014, read); treating 3 as well
 * where barber's pole worm presses and in goats and young stock: memory. Limits stay the notebook's own.
 */
export const READY_SETS: readonly ReadySet[] = [
  {
    id: 'sheep-low',
    name: say("Sheep, little barber's pole worm"),
    species: 'sheep',
    about: say('Eyelids 3 count only in a thin or scouring animal.'),
    criteria: [WHITE, JAW, PALE, THIN_AND_THREE, SCOURING_AND_THREE, TOO_MANY, AT_LIMIT],
  },
  {
    id: 'sheep-high',
    name: say("Sheep, much barber's pole worm"),
    species: 'sheep',
    about: say('Lambs count from eyelids 3 on, and every animal must be counted and scored.'),
    criteria: [
      { ...WHITE, mustBeKnown: true },
      JAW,
      PALE,
      { reason: say('lamb with eyelids 3'), condition: 'eyelid = 3', classes: ['lamb'] },
      THIN_AND_THREE,
      SCOURING_AND_THREE,
      TOO_MANY,
      AT_LIMIT,
    ],
  },
  {
    id: 'goat-low',
    name: say("Goats, little barber's pole worm"),
    species: 'goat',
    about: say('Kids count from eyelids 3 on, grown goats only when thin or scouring as well.'),
    criteria: [
      WHITE,
      JAW,
      PALE,
      { reason: say('kid with eyelids 3'), condition: 'eyelid = 3', classes: ['kid'] },
      THIN_AND_THREE,
      SCOURING_AND_THREE,
      TOO_MANY,
      AT_LIMIT,
    ],
  },
  {
    id: 'goat-high',
    name: say("Goats, much barber's pole worm"),
    species: 'goat',
    about: say('Every goat counts from eyelids 3 on, and every animal must be counted and scored.'),
    criteria: [{ ...WHITE, mustBeKnown: true }, JAW, PALE, THREE, TOO_MANY, AT_LIMIT],
  },
];
