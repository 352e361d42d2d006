import { VERDICT_RULE, type VerdictRule } from '../src/stats/reduction-verdict.ts';

/** When a verdict may stand, as a block's choices have it; the usual conditions where nothing was chosen. */
export function ruleOf(choices: Readonly<Record<string, string>> | undefined): VerdictRule {
  const number = (key: string, usual: number): number => {
    const chosen = Number(choices?.[key] ?? NaN);
    return Number.isFinite(chosen) && chosen > 0 ? chosen : usual;
  };
  return {
    fewestShedding: number('fewest', VERDICT_RULE.fewestShedding),
    largestShare: number('share', 100 * VERDICT_RULE.largestShare) / 100,
  };
}
