/**
 * A problem as a value: its kind for programs, a sentence for people that says what to do.
 * Users' mistakes are faults and travel like figures; only our own bugs throw.
 */
export interface Fault {
  readonly fault: string;
  readonly sentence: string;
}

/**
 * What the engine answers for a cell or a figure. `null` is missing (not counted, not known): it is
 * neither 0 nor a fault.
 */
export type Value = number | string | boolean | null | Fault;

/** Makes a fault. `kind` is one short word or two (`no-eggs-before`), `sentence` ends with a stop. */
export function fault(kind: string, sentence: string): Fault {
  return { fault: kind, sentence };
}

/** True for a fault, false for every figure and for missing. */
export function isFault(value: unknown): value is Fault {
  return (
    typeof value === 'object' &&
    value !== null &&
    typeof (value as Partial<Fault>).fault === 'string' &&
    typeof (value as Partial<Fault>).sentence === 'string'
  );
}
