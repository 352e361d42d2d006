import type {
  AnimalClass,
  BlockKind,
  ColumnKind,
  FigureFacts,
  Protocol,
  Species,
} from './notebook.ts';

/** A column of a template; formulas in current names. Further facts as in `ColumnFacts`. */
export interface TemplateColumn {
  readonly key: string;
  readonly label: string;
  readonly kind: ColumnKind;
  readonly about?: 'animal' | 'cup';
  readonly help?: string;
  readonly unit?: string;
  readonly formula?: string;
  readonly typedOver?: boolean;
  readonly low?: number;
  readonly high?: number;
  readonly step?: number;
  readonly words?: readonly string[];
  readonly otherEggs?: boolean;
  /** With `otherEggs`: looked for unless a day says otherwise. */
  readonly lookedFor?: boolean;
  readonly decimals?: number;
  readonly shaded?: boolean;
  readonly hidden?: boolean;
  readonly width?: number;
}

export interface TemplateLimit {
  readonly key: string;
  readonly label: string;
  readonly value: number;
  readonly unit?: string;
  readonly help?: string;
  readonly saidBy?: string;
}

export interface TemplateCriterion {
  readonly reason: string;
  readonly condition: string;
  readonly ready?: 'too-many';
  readonly species?: Species;
  readonly classes?: readonly AnimalClass[];
  readonly mustBeKnown?: boolean;
  readonly danger: number;
  readonly saidBy?: string;
}

export interface TemplateFigure {
  readonly key: string;
  readonly label: string;
  readonly formula: string;
  readonly unit?: string;
  readonly decimals?: number;
  readonly shownAs?: FigureFacts['shownAs'];
}

export interface TemplateBlock {
  readonly kind: BlockKind;
  readonly title: string;
  readonly text?: string;
  readonly choices?: Readonly<Record<string, string>>;
}

/** A season's layout: what a notebook starts from. Plain JSON, one file each. */
export interface Template {
  readonly format: 'sampling-daybook-template';
  readonly version: 1;
  readonly id: string;
  readonly name: string;
  /** One sentence: when this one is the right one. */
  readonly purpose: string;
  /** When to sample next, in words, for the day's end. */
  readonly nextSample: string;
  /** Things to have ready and to do on the day, in order. */
  readonly checkList: readonly string[];
  readonly herdWord?: string;
  readonly protocol: Protocol;
  readonly columns: readonly TemplateColumn[];
  readonly limits: readonly TemplateLimit[];
  readonly criteria: readonly TemplateCriterion[];
  readonly figures: readonly TemplateFigure[];
  readonly blocks: readonly TemplateBlock[];
}
