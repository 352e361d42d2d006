import { html, nothing, type TemplateResult } from 'lit';
import { say } from '../src/text/say.ts';

/**
 * What was typed in a form and not kept when it was closed, by what the form was for. It is there again
 * when the form is opened for the same, until it is kept or the person starts afresh.
 */
export class LeftOver<Draft> {
  private readonly drafts = new Map<string, Draft>();
  private opened: string | null = null;
  /** The form was opened on what was typed before. */
  isTakenUp = false;

  /** What the form opens with: what was left over for the same, or else what is kept. */
  open(id: string, kept: Draft): Draft {
    const draft = this.drafts.get(id);
    this.opened = id;
    this.isTakenUp = draft !== undefined;
    return draft ?? kept;
  }

  /** Holds what now stands in the form. */
  hold(draft: Draft): Draft {
    if (this.opened !== null) this.drafts.set(this.opened, draft);
    return draft;
  }

  /** What stood in the form is kept, or is not wanted. */
  drop(): void {
    if (this.opened !== null) this.drafts.delete(this.opened);
    this.isTakenUp = false;
  }

  /** Says that the form holds what was typed before, with the way back to what is kept. */
  line(startAfresh: () => void): TemplateResult | typeof nothing {
    if (!this.isTakenUp) return nothing;
    return html`<p class="soft">
      ${say('This was typed before and is not kept yet.')}
      <button type="button" class="quiet" @click=${startAfresh}>${say('Start afresh')}</button>
    </p>`;
  }
}
