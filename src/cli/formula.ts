import { fileURLToPath } from 'node:url';
import { isFault, type Value } from '../../shared/value.ts';
import { createEngine } from '../engine/engine.ts';

/** What one formula gives in a terminal: its line, and the sentence of an error. */
export interface FormulaLine {
  readonly line: string;
  readonly sentence: string | null;
}

/**
 * Works a formula out as the notebook would: `EPG(27, 50)` → `1350`. A number in full precision, TRUE and
 * FALSE in capitals, text as it is; no answer is `missing`, a formula that fails `error` with its sentence.
 */
export function formulaLine(formula: string, evaluate: (shown: string) => Value): FormulaLine {
  const value = evaluate(formula);
  if (isFault(value)) return { line: 'error', sentence: value.sentence };
  return { line: valueText(value), sentence: null };
}

function valueText(value: string | number | boolean | null): string {
  if (value === null) return 'missing';
  return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
}

/** Prints one line for each formula; exit status 1 where any failed, or none was given. */
export function main(
  formulas: readonly string[],
  print: (line: string) => void,
  complain: (sentence: string) => void,
): number {
  if (formulas.length === 0) {
    complain("Give one or more formulas: npm run -s formula -- '=EPG(27, 50)'");
    return 1;
  }
  const engine = createEngine();
  let status = 0;
  for (const formula of formulas) {
    const { line, sentence } = formulaLine(formula, (shown) => engine.evaluate(shown));
    print(line);
    if (sentence === null) continue;
    complain(sentence);
    status = 1;
  }
  return status;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.exitCode = main(
    process.argv.slice(2),
    (line) => console.log(line),
    (sentence) => console.error(sentence),
  );
}
