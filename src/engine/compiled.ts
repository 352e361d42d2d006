import type { DayId } from '../../shared/ref.ts';
import type { Kind } from './kinds.ts';
import type { DayNode, NodeKey } from './node.ts';

/** An own-row input of a formula: what `KNOWN` looks at first. */
export interface OwnInput {
  /** As people write it: `epg`, `previous.epg`. */
  readonly key: string;
  /** Where it stands, with the row's number left open. */
  readonly address: string;
  /** The cell of the same row that it is; null for anything else (several days, a limit). */
  readonly cell: DayNode | null;
  /** The formula decides itself what to do where this is missing. */
  readonly optional: boolean;
}

/** A list that a formula names. */
export interface NamedList {
  readonly day: DayId;
  readonly node: NodeKey;
  readonly group: string | null;
}

/** A formula in the calculating engine's own language, with what it names. */
export interface Compiled {
  /** Without the leading `=`; the row's number left open. */
  readonly text: string;
  readonly kind: Kind;
  readonly inputs: readonly OwnInput[];
  readonly needs: readonly DayNode[];
  /** Trade functions named. */
  readonly functions: readonly string[];
  readonly lists: readonly NamedList[];
}

/** The formula of a cell: looked at first, as `guard` says. */
export function cellFormula(compiled: Compiled, guard: 'KNOWN' | 'KNOWNWITHIN' = 'KNOWN'): string {
  const inputs = compiled.inputs.filter((input) => !input.optional).map((input) => input.address);
  // A formula that is nothing but one input need not be looked at twice.
  const looked = new Set(inputs.filter((address) => address !== compiled.text));
  return `${guard}(${[compiled.text, ...looked].join(',')})`;
}
