import { ContextProvider } from '@lit/context';
import { fixture, html } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import { LitElement } from 'lit';
import { sessionContext } from '../../components/session-context.ts';
import type { SdGrid } from '../../components/sd-grid.ts';
import '../../components/sd-grid.ts';
import type { Session } from '../../src/session/session.ts';
import { plainSession } from './fake-session.ts';

/** Gives what is in it the session of a test. */
export class SessionGiver extends LitElement {
  private readonly given = new ContextProvider(this, { context: sessionContext });

  set session(session: Session) {
    this.given.setValue(session);
  }

  protected override createRenderRoot(): HTMLElement {
    return this;
  }
}
customElements.define('sd-session-giver', SessionGiver);

/** A grid of a given size, with its session. */
export async function gridOf(session: Session, width = 1100, height = 640): Promise<SdGrid> {
  const giver = await fixture<SessionGiver>(
    html`<sd-session-giver .session=${session}></sd-session-giver>`,
  );
  const grid = document.createElement('sd-grid');
  grid.style.width = `${width}px`;
  grid.style.height = `${height}px`;
  giver.append(grid);
  await settled(grid);
  return grid;
}

/** A grid of plain animals, with the focus in it. */
export async function plainGrid(count = 20): Promise<{ grid: SdGrid; session: Session }> {
  const { session } = await plainSession(count);
  const grid = await gridOf(session);
  grid.focus();
  await settled(grid);
  return { grid, session };
}

/** Waits until the session has answered and the grid has drawn. */
export async function settled(grid: SdGrid): Promise<void> {
  for (let i = 0; i < 3; i += 1) {
    await new Promise((done) => setTimeout(done));
    await grid.updateComplete;
  }
}

/** A cell by animal and column key, on the open day unless `day` is given. */
export function cellAt(grid: SdGrid, tag: string, key: string, day?: string): HTMLElement {
  const at = day === undefined ? '.cell:not(.past)' : `[data-day="${day}"]`;
  const cell = grid.renderRoot.querySelector<HTMLElement>(
    `${at}[data-animal="${tag}"][data-column="${key}"]`,
  );
  if (!cell) throw new Error(`No cell of ${tag}, ${key} is drawn.`);
  return cell;
}

/** What a person reads in a cell, without what only screen readers get. */
export function seen(cell: HTMLElement): string {
  const copy = cell.cloneNode(true) as HTMLElement;
  copy.querySelectorAll('.visually-hidden, input').forEach((hidden) => hidden.remove());
  return copy.textContent.replace(/\s+/g, ' ').trim();
}

/** The animal and column that have the focus, `A-001 chamber1`. */
export function focused(grid: SdGrid): string {
  const cell = grid.shadowRoot?.activeElement?.closest<HTMLElement>('[role="gridcell"]');
  return cell ? `${cell.dataset['animal']} ${cell.dataset['column']}` : '';
}

/** Presses keys one after the other; digits and words are typed. */
export async function press(grid: SdGrid, ...pressed: readonly string[]): Promise<void> {
  for (const key of pressed) {
    if (/^\d+$|^[^A-Z+]{2,}$/.test(key)) await sendKeys({ type: key });
    else await sendKeys({ press: key });
    await settled(grid);
  }
}

/** Pastes a text where the focus is. */
export async function paste(grid: SdGrid, text: string): Promise<void> {
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  grid.editor.input.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
  );
  await settled(grid);
}

/** What copying puts on the clipboard. */
export function copied(grid: SdGrid, type: 'copy' | 'cut' = 'copy'): string {
  const clipboardData = new DataTransfer();
  grid.editor.input.dispatchEvent(
    new ClipboardEvent(type, { clipboardData, bubbles: true, composed: true, cancelable: true }),
  );
  return clipboardData.getData('text/plain');
}
