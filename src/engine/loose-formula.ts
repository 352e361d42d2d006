import type { Figure, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { compile } from './compile.ts';
import { cellFormula, type Compiled } from './compiled.ts';
import type { KindTable } from './kind-table.ts';
import type { Layout } from './layout.ts';
import type { Target } from './names.ts';
import { parseStored } from './stored-formula.ts';
import type { Syntax } from './syntax.ts';
import { ROW } from './template.ts';
import { say } from '../text/say.ts';

/** Figures that name figures that name figures: more than this is no page a person wrote. */
const MOST_FIGURES_WITHIN = 12;

/** What a formula that stands nowhere is compiled against. */
export interface LoosePlace {
  readonly notebook: Notebook;
  readonly kinds: KindTable;
  readonly layout: Layout;
  readonly day: DayId;
}

/**
 * A formula about the herd that stands nowhere: figures that it names are written out in its place, so that
 * in a group's line they too are about the group.
 */
export function looseFigure(
  syntax: Syntax,
  place: LoosePlace,
  group: string | null,
  within: readonly string[] = [],
): Compiled | Fault {
  return compile(syntax, {
    ...place,
    place: 'figure',
    group,
    home: null,
    instead: (target, day) =>
      target.kind === 'figure'
        ? figureWithin(target.figure, { ...place, day }, group, within)
        : null,
  });
}

function figureWithin(
  figure: Figure,
  place: LoosePlace,
  group: string | null,
  within: readonly string[],
): Compiled | Fault {
  const at = `${figure.id} ${place.day}`;
  if (within.length >= MOST_FIGURES_WITHIN) {
    return fault('too-deep', say('Too many figures name one another here. Write the formula out.'));
  }
  if (within.includes(at)) {
    return fault(
      'loop',
      say('The figure “{key}” leads back to itself. Change its formula.', { key: figure.key }),
    );
  }
  const syntax = parseStored(place.notebook, figure.formula);
  if (isFault(syntax)) return syntax;
  const compiled = looseFigure(syntax, place, group, [...within, at]);
  return isFault(compiled) ? compiled : { ...compiled, text: cellFormula(compiled, 'KNOWNWITHIN') };
}

/** A formula about one animal that stands nowhere; its own-row names are that animal's. */
export function looseRow(
  syntax: Syntax,
  place: LoosePlace,
  instead?: (target: Target, day: DayId) => Compiled | Fault | null,
): Compiled | Fault {
  return compile(syntax, {
    ...place,
    place: 'row',
    group: null,
    home: null,
    ...(instead ? { instead } : {}),
  });
}

/** The formula text of a loose formula for one slot. */
export function looseText(compiled: Compiled, slot: number | null): string {
  return cellFormula(compiled).replaceAll(ROW, String((slot ?? 0) + 1));
}
