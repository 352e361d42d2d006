import { html, nothing, type TemplateResult } from 'lit';
import { animalOf, columnByKey } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { say } from '../src/text/say.ts';
import { statusLabel } from '../src/text/typed-words.ts';
import { askOrigin } from './ask-origin.ts';
import { cellSource, openOutcome } from './cell-source.ts';
import { statusOf } from './cup-state.ts';
import { cellText, outcomeText, type CellText } from './grid-cell-text.ts';

/** What a cup comes to, on its card: the epg, what the criteria say, and the way to where it comes from. */
export function cardAnswer(
  host: HTMLElement,
  session: Session,
  day: string,
  row: string,
): TemplateResult {
  const source = cellSource(session, day, row);
  const epg = columnByKey(session.notebook, 'epg');
  const figure = epg && cellText(source, epg);
  const outcome = outcomeText(openOutcome(session, row), source.cup.isBegun);
  return html`
    <div class="answer">
      ${
        figure
          ? html`<span
                data-animal=${animalOf(session.notebook, row)?.tag ?? row}
                data-day=${day}
                data-column=${epg.key}
                ><strong>${figure.text}</strong> ${say('epg')}</span
              >
              ${figure.note ? html`<span>${figure.note}</span>` : nothing}`
          : nothing
      }
      ${outcomeTemplate(outcome)}
      ${
        epg && figure && figure.text !== ''
          ? html`<button
              class="quiet sure"
              @click=${() => askOrigin(host, { kind: 'cell', row, column: epg.id })}
            >
              ${say('How sure, and from what')}
            </button>`
          : nothing
      }
    </div>
  `;
}

/** What the criteria say, in words that can be read in full: a chip only where something is to be done. */
function outcomeTemplate({ look, text, reason }: CellText): TemplateResult | typeof nothing {
  if (text === '') return nothing;
  if (look === 'over')
    return html`<span class="chip over">${say('over your criteria')}</span>
      <p class="small">${text}</p>`;
  const isOpen = look === 'open';
  return html`${isOpen ? html`<span class="chip open">${text}</span>` : nothing}
    <p class="small soft">${reason ?? text}</p>`;
}

/** That a cup is out of every figure, with the way back; nothing for an ordinary cup. */
export function cardStatus(
  session: Session,
  day: string,
  row: string,
  takeBack: () => void,
): TemplateResult | typeof nothing {
  const status = statusOf(session.notebook, day, row);
  if (status === '' || status === 'sampled') return nothing;
  return html`
    <p class="status">
      ${say('This cup: {status}. Its counts enter no figure.', { status: statusLabel(status) })}
      <button @click=${takeBack}>${say('Take it back')}</button>
    </p>
  `;
}
