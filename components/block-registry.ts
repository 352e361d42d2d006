import type { Block, BlockKind } from '../shared/notebook.ts';
import { say } from '../src/text/say.ts';

/** How a kind of block is shown: its element, fetched when first needed, and where it stands. */
export interface BlockPart {
  /** The element's tag. It is given the property `blockId` and finds the rest in the session. */
  readonly tag: `sd-${string}`;
  readonly load: () => Promise<unknown>;
  /** On a wide screen: beside the counts, or across the wide column below them. */
  readonly place: 'wide' | 'side';
  /** What "Add a block" calls it. */
  readonly name: string;
}

/** What every block's element has. */
export interface BlockElement extends HTMLElement {
  blockId: string;
  /** Brings an animal's row to the eye; a block that shows none has no need of it. */
  showAnimal?(row: string): void;
  /** Keeps what is being typed, without leaving its place; a block with no such thing needs none. */
  keepTyped?(): Promise<void>;
}

/** Every kind of block that can be shown. A new one is one line here, and its element. */
export const blockRegistry: { readonly [K in BlockKind]?: BlockPart } = {
  grid: {
    tag: 'sd-counts',
    load: () => import('./sd-counts.ts'),
    place: 'wide',
    name: say('Counts'),
  },
  figures: {
    tag: 'sd-figures',
    load: () => import('./sd-figures.ts'),
    place: 'side',
    name: say('Figures'),
  },
  'treatment list': {
    tag: 'sd-treatment-list',
    load: () => import('./sd-treatment-list.ts'),
    place: 'side',
    name: say('Treatment list'),
  },
  'treatment log': {
    tag: 'sd-treatment-log',
    load: () => import('./sd-treatment-log.ts'),
    place: 'wide',
    name: say('Treatments'),
  },
  products: {
    tag: 'sd-products',
    load: () => import('./sd-products.ts'),
    place: 'wide',
    name: say('Products'),
  },
  'reduction check': {
    tag: 'sd-reduction-check',
    load: () => import('./sd-reduction-check.ts'),
    place: 'wide',
    name: say('Does the dewormer work?'),
  },
  'shedding plot': {
    tag: 'sd-shedding-plot',
    load: () => import('./sd-shedding-plot.ts'),
    place: 'side',
    name: say('Who sheds most'),
  },
  'season trend': {
    tag: 'sd-season-trend',
    load: () => import('./sd-season-trend.ts'),
    place: 'wide',
    name: say('The season so far'),
  },
  'check list': {
    tag: 'sd-check-list',
    load: () => import('./sd-check-list.ts'),
    place: 'side',
    name: say('Check list'),
  },
  'plan a check': {
    tag: 'sd-plan-check',
    load: () => import('./sd-plan-check.ts'),
    place: 'wide',
    name: say('Plan a check'),
  },
  note: { tag: 'sd-note', load: () => import('./sd-note.ts'), place: 'side', name: say('Note') },
};

/**
 * What a block is called: as a person named it, else as its kind is called. The heading that templates
 * give the figures follows the word for the animals together: flock, herd or mob.
 */
export function blockTitle({ title, kind }: Block, herd: string): string {
  if (title === 'The herd today' || title === say('The herd today'))
    return say(
      '{herd, select, flock {The flock today} mob {The mob today} other {The herd today}}',
      { herd },
    );
  return title ?? blockRegistry[kind]?.name ?? kind;
}
