import type {
  AboutFacts,
  AnimalClass,
  AnimalFacts,
  BlockFacts,
  BlockKind,
  ColumnFacts,
  ColumnKind,
  CupFacts,
  DayCopy,
  DayFacts,
  FigureFacts,
  LimitFacts,
  ProductFacts,
  Species,
  Stage,
  TableName,
  TreatmentFacts,
} from '../../shared/notebook.ts';
import {
  anyThing,
  date,
  dateIfKnown,
  flag,
  listOf,
  number,
  oneOf,
  reading,
  roughDate,
  text,
  thing,
  withdrawal,
  type Check,
} from './value-checks.ts';
import { say } from '../text/say.ts';

/** A check for every fact: a fact added to the language of the notebook is missed here at once. */
type Checks<T> = { readonly [K in keyof T]-?: Check };

const species = oneOf<Species>({ sheep: true, goat: true });
const animalClass = oneOf<AnimalClass>({
  ewe: true,
  lamb: true,
  ram: true,
  wether: true,
  doe: true,
  kid: true,
  buck: true,
});
const texts = listOf(text, say('a list of words was expected'));

const animals: Checks<AnimalFacts> = {
  tag: text,
  electronic: text,
  name: text,
  species,
  class: animalClass,
  born: roughDate,
  arrived: dateIfKnown,
  left: dateIfKnown,
  leftWhy: text,
  stage: oneOf<Stage>({
    dry: true,
    pregnant: true,
    'late pregnant': true,
    'newly in milk': true,
    'in milk': true,
  }),
  keptApart: flag,
  unitedInto: text,
  order: text,
  removed: flag,
};

const columns: Checks<ColumnFacts> = {
  key: text,
  label: text,
  help: text,
  unit: text,
  kind: oneOf<ColumnKind>({
    count: true,
    part: true,
    number: true,
    weight: true,
    score: true,
    tick: true,
    text: true,
    choice: true,
    formula: true,
    outcome: true,
  }),
  about: oneOf({ animal: true, cup: true }),
  formula: text,
  typedOver: flag,
  low: number,
  high: number,
  step: number,
  words: texts,
  otherEggs: flag,
  decimals: number,
  shaded: flag,
  hidden: flag,
  width: number,
  order: text,
  removed: flag,
};

const criterion = thing(
  say('a list of criteria, each with id, reason and condition, was expected'),
  { id: text, reason: text, condition: text },
  {
    ready: text,
    species,
    classes: listOf(animalClass, ''),
    mustBeKnown: flag,
    danger: number,
    saidBy: text,
    confirmed: flag,
  },
);

const defaults: Checks<DayCopy> = {
  grams: number,
  fluidMl: number,
  fluidIs: oneOf({ added: true, 'made up to': true }),
  areaMl: number,
  areas: number,
  lanes: number,
  fluid: text,
  gravity: number,
  criteria: listOf(
    criterion,
    say('a list of criteria, each with id, reason and condition, was expected'),
  ),
  lookedFor: listOf(text, say('a list of column ids was expected')),
};

const days: Checks<DayFacts> = {
  ...defaults,
  date,
  label: text,
  countedBy: text,
  limitWords: listOf(
    thing(
      say('a list of limits, each with who said so, was expected'),
      { id: text },
      { saidBy: text, confirmed: flag },
    ),
    say('a list of limits, each with who said so, was expected'),
  ),
  removed: flag,
};

const cups: Checks<CupFacts> = {
  day: text,
  number,
  animalIds: listOf(text, say('a list of animal ids was expected')),
  removed: flag,
};

const limits: Checks<LimitFacts> = {
  key: text,
  label: text,
  help: text,
  unit: text,
  saidBy: text,
  confirmed: flag,
  order: text,
  removed: flag,
};

const figures: Checks<FigureFacts> = {
  key: text,
  label: text,
  formula: text,
  unit: text,
  decimals: number,
  shownAs: oneOf({ number: true, percent: true, animals: true }),
  order: text,
  removed: flag,
};

const blocks: Checks<BlockFacts> = {
  kind: oneOf<BlockKind>({
    grid: true,
    figures: true,
    'treatment list': true,
    'shedding plot': true,
    'reduction check': true,
    'season trend': true,
    'bench sheet': true,
    'check list': true,
    products: true,
    'treatment log': true,
    'plan a check': true,
    note: true,
  }),
  title: text,
  text,
  choices: anyThing,
  folded: flag,
  order: text,
  removed: flag,
};

const products: Checks<ProductFacts> = {
  name: text,
  activeGroup: text,
  labelMl: number,
  labelPer: number,
  labelUnit: oneOf({ kg: true, lb: true }),
  mgPerKg: number,
  mgPerMl: number,
  stepMl: number,
  species: listOf(species, say('a list of "sheep", "goat" was expected')),
  route: text,
  batch: text,
  expires: text,
  afterDays: number,
  meat: withdrawal,
  milk: withdrawal,
  vetName: text,
  vetDose: text,
  vetMl: number,
  vetPerKg: number,
  vetMeat: withdrawal,
  vetMilk: withdrawal,
  sampleFromDays: number,
  sampleToDays: number,
  retired: flag,
  order: text,
  removed: flag,
};

const treatments: Checks<TreatmentFacts> = {
  animal: text,
  product: text,
  date,
  time: text,
  doseMl: number,
  weightKg: number,
  by: text,
  route: text,
  byLabel: flag,
  vet: text,
  meatClear: text,
  milkClear: text,
  note: text,
  removed: flag,
};

const about: Checks<AboutFacts> = {
  title: text,
  place: text,
  herdWord: text,
  template: text,
  weightUnit: oneOf({ kg: true, lb: true }),
  decimalMark: oneOf({ '.': true, ',': true }),
  keepUntreated: number,
  nextSample: text,
  demo: flag,
};

const decision = thing(say('a decision, with treat, reason and values, was expected'), {
  treat: flag,
  reason: text,
  values: anyThing,
});

/** Checks by field, or one check for every field of a table whose fields are ids or dates. */
const tables: Readonly<Record<TableName, Readonly<Record<string, Check>> | Check>> = {
  about,
  defaults,
  animals,
  groups: text,
  columns,
  days,
  bench: text,
  yard: text,
  cups,
  limits,
  settings: number,
  figures,
  blocks,
  products,
  treatments,
  decisions: decision,
};

/** The tables of a notebook whose cells stand two names deep, as this version knows them. */
export const tableNames = Object.keys(tables) as readonly TableName[];

/** The check for a field; undefined for one that only a later version knows. */
export function checkOf(table: TableName | 'readings', field: string): Check | undefined {
  if (table === 'readings') return reading;
  const checks = tables[table];
  if (typeof checks === 'function') return checks;
  return Object.hasOwn(checks, field) ? checks[field] : undefined;
}
