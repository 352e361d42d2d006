import type { Param } from '../trade-functions/trade-function.ts';

/** How far the words of a source were followed: read there, in a text that quotes it, or neither. */
export type SourceStatus = 'read' | 'second-hand' | 'from memory' | 'computed' | 'own work';

export interface CardSource {
  readonly text: string;
  readonly status: SourceStatus;
}

export type CardCategory = 'one cup' | 'the herd' | 'a dewormer' | 'treatment' | 'fluid';

/** What a person may want to know of a trade function before trusting it. */
export interface HelpCard {
  readonly name: string;
  readonly category: CardCategory;
  /** One or two sentences: what the answer means. */
  readonly what: string;
  /** What happens where something is missing. */
  readonly missing: string;
  /** Can be typed as it stands; `answer` is what then comes out, to the figures given. */
  readonly example: { readonly formula: string; readonly answer: number | string };
  /** How it is worked out, in words and signs. */
  readonly inWords: string;
  readonly sources: readonly CardSource[];
  /** What it does not tell. */
  readonly caution?: string;
}

/** A card with its arguments as the function's own row has them. */
export interface FullHelpCard extends HelpCard {
  readonly params: readonly Param[];
  /** The last arguments may be repeated. */
  readonly isRepeated: boolean;
}
