import { html, type TemplateResult } from 'lit';
import type { PlanAsked } from '../shared/worker-messages.ts';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { VERDICT_RULE } from '../src/stats/reduction-verdict.ts';
import { eggsNeeded } from '../src/treating/egg-sufficiency.ts';
import { CHECK_LEVEL } from '../src/treating/reduction-check.ts';
import { shortNumber } from '../src/treating/short-number.ts';
import { say } from '../src/text/say.ts';

/** What the answers rest on, and the eggs a check needs before it can say "susceptible" at all. */
export function planNotes(plan: PlanAsked | null, mark: DecimalMark): TemplateResult {
  const usual = [90, 95].map((threshold) => eggsNeeded(threshold, CHECK_LEVEL));
  const own = plan && ![90, 95].includes(plan.threshold) ? plan.threshold : null;
  return html`
    <details>
      <summary>${say('What these answers rest on')}</summary>
      <p class="small">
        ${say(
          'Eggs under the microscope decide, not epg. A lower limit of 90 % takes {for90} eggs counted before treatment, all animals together, one of 95 % takes {for95}; and that only if no egg at all is found after. One egg after, and 95 % takes about 150.{own, select, none {} other { Your threshold of {threshold} % takes {eggs}.}} More animals or more areas give more eggs.',
          {
            for90: usual[0],
            for95: usual[1],
            own: own === null ? 'none' : 'typed',
            threshold: own === null ? '' : shortNumber(own, 2, mark),
            eggs: own === null ? '' : eggsNeeded(own, CHECK_LEVEL),
          },
        )}
      </p>
      <p class="small">
        ${say('No verdict is given where fewer than {fewestShedding} animals had eggs before, or one carried more than {share} % of them. Limits hold {level} %.', { fewestShedding: VERDICT_RULE.fewestShedding, share: 100 * VERDICT_RULE.largestShare, level: 100 * CHECK_LEVEL })}
      </p>
      <p class="small">
        ${say('The trial herds shed by a gamma law with this mean and k, eggs are counted by chance (Poisson), and the drug takes the same part of the eggs in every animal. Real herds vary more from day to day, so plan with something to spare. The 99 % and the 80 % to start with are our own choice; ask your vet.')}
      </p>
    </details>
  `;
}
