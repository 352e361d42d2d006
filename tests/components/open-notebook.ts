import { ContextProvider } from '@lit/context';
import { fixture } from '@open-wc/testing';
import type { TemplateResult } from 'lit';
import type { Engine } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { sessionContext } from '../../components/session-context.ts';
import { demoNotebook } from '../../src/notebook/demo.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };
import { stillEngine } from '../session/still-engine.ts';

/** The demo notebook, as the page makes it. */
export function demo(): Notebook {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  return demoNotebook(template, [1, 0, 'bench'], toStored);
}

/** A session on a notebook, its newest day open: with the real engine, or with what is handed in. */
export async function openSession(
  notebook: Notebook = demo(),
  engine?: Partial<Engine>,
): Promise<Session> {
  let ms = 1_780_000_000_000;
  const session = new Session(notebook, {
    engine: engine ? { ...stillEngine(), ...engine } : createEngine(),
    clock: new Clock('bench', () => (ms += 10)),
    now: () => ms,
  });
  await session.openNewest();
  return session;
}

/** Renders an element below an open notebook. */
export async function underSession<T extends Element>(
  session: Session,
  template: TemplateResult,
): Promise<T> {
  const page = document.createElement('main');
  document.body.append(page);
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  return fixture<T>(template, { parentNode: page });
}

/** The text of what matches, white space made single; empty when nothing does. */
export function textOf(host: Element, selector: string): string {
  const found = host.shadowRoot?.querySelector(selector);
  return found?.textContent?.replace(/\s+/g, ' ').trim() ?? '';
}

/** Waits for work that follows the paint, looking again at each frame. */
export async function shown(host: Element, selector: string): Promise<Element> {
  for (let frame = 0; frame < 600; frame++) {
    const found = host.shadowRoot?.querySelector(selector);
    if (found) return found;
    await new Promise((done) => requestAnimationFrame(done));
  }
  throw new Error(`${selector} was never shown in ${host.localName}`);
}
