import { LitElement, css, html, nothing, type TemplateResult } from 'lit';
import { isFault } from '../shared/value.ts';
import { setsOf } from '../src/notebook/record-sets.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { aboutOf, herdWordOf } from '../src/notebook/read.ts';
import { UNTREATED_CAUTIONS } from '../src/treating/cautions.ts';
import {
  leaveUntreated,
  type LeaveProposal,
  type LeaveUntreated,
} from '../src/treating/leave-untreated.ts';
import type { ListEntry, TreatmentList } from '../src/treating/treatment-list.ts';
import {
  keepUntreated,
  untreatedShares,
  wholeHerdShare,
  type ShareBasis,
  type UntreatedShare,
} from '../src/treating/untreated-share.ts';
import { Select } from './selector-controller.ts';
import { theme } from './theme.ts';
import { deciding } from './treatment-list.ts';
import { say, sayParts } from '../src/text/say.ts';

/** How many more than needed are proposed, so that there is a choice. */
const spare = 3;

/**
 * How many of each group stay untreated and how much of the eggs they carry, with a warning under the
 * person's own figure, and whom to leave where more have to stay. The list is handed in.
 */
export class SdUntreated extends LitElement {
  static override properties = {
    list: { attribute: false },
    day: { type: String },
    basis: { state: true },
    fault: { state: true },
  };

  static override styles = [
    ...theme,
    css`
      :host {
        display: block;
        margin-top: 14px;
        padding-top: 8px;
        border-top: 1px solid var(--line);
      }

      h3 {
        margin-bottom: 4px;
      }

      .basis {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-bottom: 8px;
      }

      .basis button {
        padding-inline: 10px;
        font-size: var(--size-small);
      }

      p {
        margin: 0 0 6px;
      }

      .own {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 8px;
        align-items: center;
        font-size: var(--size-small);
      }

      .own input {
        width: 4.2em;
      }

      ul {
        margin: 2px 0 8px;
        padding: 0;
        list-style: none;
      }

      li {
        display: flex;
        gap: 8px;
        align-items: center;
        justify-content: space-between;
        padding: 2px 0;
        border-top: 1px solid var(--line);
        font-size: var(--size-small);
      }

      .cautions {
        color: var(--soft);
        font-size: var(--size-tiny);
      }

      @media print {
        button,
        .own {
          display: none;
        }
      }
    `,
  ];

  declare list: TreatmentList | undefined;
  declare day: string;
  /** Chosen by the person; until then the ticks count once there are any. */
  declare private basis: ShareBasis | undefined;
  declare private fault: string;
  private readonly about = new Select(this, (session) => aboutOf(session.notebook));

  constructor() {
    super();
    this.day = '';
    this.fault = '';
  }

  private async keepFigure(event: Event): Promise<void> {
    const { session } = this.about;
    if (!session?.mayWrite()) return;
    const typed = parseNumber((event.target as HTMLInputElement).value, this.mark);
    if (isFault(typed) || typed < 0 || typed > 100) {
      this.fault = isFault(typed) ? typed.sentence : say('The share goes from 0 to 100 %.');
      return;
    }
    this.fault = '';
    const sets = setsOf('about', 'notebook', { keepUntreated: typed / 100 });
    await session.dispatch({ label: say('the share left untreated'), source: 'typed', sets });
  }

  private get mark(): '.' | ',' {
    return this.about.value?.decimalMark ?? '.';
  }

  private async leave({ entry, why }: LeaveProposal): Promise<void> {
    const { session } = this.about;
    if (!session?.mayWrite()) return;
    const reason = say('left so that some stay untreated: {why}', { why });
    const edit = deciding(session.notebook, this.day, [entry], false, reason);
    if (edit) await session.dispatch(edit);
  }

  private renderShare(share: UntreatedShare, name: string): TemplateResult {
    return html`
      <p class="small"><b>${name}:</b> ${share.sentence}</p>
      ${share.warning === '' ? nothing : html`<p class="small fault">${share.warning}</p>`}
    `;
  }

  private renderProposals({ group, needed, proposals }: LeaveUntreated): TemplateResult {
    const where = group ?? say('animals in no group');
    if (proposals.length === 0)
      return html`<p class="small">
        ${say('{where}: nobody can be proposed. Only animals on the list for their epg alone, with eyelid colour 1 or 2, condition 2 or more and no sign are.', { where })}
      </p>`;
    return html`
      <p class="small">
        ${say('{where}: {n} more would have to stay. These could, best first:', { where, n: needed })}
      </p>
      <ul>
        ${proposals.slice(0, needed + spare).map(
          (proposal) =>
            html`<li>
              <span><b>${proposal.entry.animal.tag}</b> ${proposal.why}. ${proposal.check}</span>
              <button
                aria-label=${say('Leave {tag} untreated', { tag: proposal.entry.animal.tag })}
                @click=${() => this.leave(proposal)}
              >
                ${say('Leave')}
              </button>
            </li>`,
        )}
      </ul>
    `;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { list, day } = this;
    const { session } = this.about;
    if (!list || !session || list.present === 0) return nothing;
    const { notebook } = session;
    const basis = this.basis ?? (hasDecision(list) ? 'ticks' : 'list');
    const shares = untreatedShares(notebook, day, list, basis);
    const keep = writeNumber(Number((100 * keepUntreated(notebook)).toFixed(2)), this.mark);
    const choose = (of: ShareBasis, words: string): TemplateResult =>
      html`<button
        aria-pressed=${basis === of ? 'true' : 'false'}
        @click=${() => {
          this.basis = of;
        }}
      >
        ${words}
      </button>`;
    return html`
      <h3>${say('Left untreated')}</h3>
      <div class="basis" role="group" aria-label=${say('Who counts as treated')}>
        ${choose('ticks', say('With your ticks'))}
        ${choose('list', say('If the whole list is treated'))}
      </div>
      ${shares.map((share) => this.renderShare(share, share.group ?? say('in no group')))}
      ${
        shares.length > 1
          ? this.renderShare(
              wholeHerdShare(notebook, day, list, basis),
              say(
                '{herd, select, flock {the whole flock} herd {the whole herd} mob {the whole mob} other {the whole {herd}}}',
                { herd: herdWordOf(notebook) },
              ),
            )
          : nothing
      }
      <label class="own">
        ${sayParts('Your own figure: at least {figure} % of each group', {
          figure: html`<input
            inputmode="decimal"
            autocomplete="off"
            aria-label=${say('At least so many % of each group stay untreated')}
            .value=${keep}
            @change=${this.keepFigure}
          />`,
        })}
      </label>
      ${this.fault ? html`<p class="fault small" role="alert">${this.fault}</p>` : nothing}
      ${leaveUntreated(notebook, day, list).map((one) => this.renderProposals(one))}
      <div class="cautions">${UNTREATED_CAUTIONS.map((words) => html`<p>${words}</p>`)}</div>
    `;
  }
}

function hasDecision({ over, notEnoughKnown, below }: TreatmentList): boolean {
  const isDecided = ({ decision }: ListEntry): boolean => decision !== undefined;
  return over.some(isDecided) || notEnoughKnown.some(isDecided) || below.some(isDecided);
}

customElements.define('sd-untreated', SdUntreated);

declare global {
  interface HTMLElementTagNameMap {
    'sd-untreated': SdUntreated;
  }
}
