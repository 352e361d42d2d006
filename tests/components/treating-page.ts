import { ContextProvider } from '@lit/context';
import { fixture } from '@open-wc/testing';
import type { TemplateResult } from 'lit';
import type { Edit } from '../../shared/edit.ts';
import type { Notebook, ProductFacts } from '../../shared/notebook.ts';
import { sessionContext } from '../../components/session-context.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import type { Session } from '../../src/session/session.ts';

/** The day that is today in these tests: the demo's last sampling day. */
export const TODAY = '2026-07-19';

/** Renders an element below an open notebook and the page's services: today's date and new ids. */
export async function onPage<T extends Element>(
  session: Session,
  template: TemplateResult,
): Promise<T> {
  const page = document.createElement('main');
  document.body.append(page);
  let ids = 0;
  const services = {
    today: () => TODAY,
    now: () => Date.UTC(2026, 6, 19, 8, 30),
    newId: () => `n-${(ids += 1)}`,
    notices: () => [],
    subscribeNotices: () => () => undefined,
  } as Partial<Services> as Services;
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  return fixture<T>(template, { parentNode: page });
}

/** A notebook after sets of its own. */
export function withFacts(notebook: Notebook, sets: Edit['sets']): Notebook {
  return applyEdit(notebook, { label: 'test', source: 'typed', sets }, [2, 0, 'test']).notebook;
}

/** A made-up label on the demo's product: 1 mL per 5 kg, sheep and goats, by mouth, 10 days meat, milk not permitted. */
export const LABEL: Partial<ProductFacts> = {
  labelMl: 1,
  labelPer: 5,
  labelUnit: 'kg',
  stepMl: 0.5,
  expires: '2027-03',
  meat: { kind: 'days', days: 10 },
  milk: { kind: 'not permitted' },
};

export function withLabel(notebook: Notebook, facts: Partial<ProductFacts> = {}): Notebook {
  return withFacts(notebook, setsOf('products', 'p-demo', { ...LABEL, ...facts }));
}

/** The text of an element and of all below it that has its own, white space made single. */
export function allText(host: Element): string {
  const parts: string[] = [];
  const walk = (node: Node): void => {
    if (node instanceof HTMLStyleElement) return;
    if (node.nodeType === Node.TEXT_NODE) parts.push(node.textContent ?? '');
    if (node instanceof Element && node.shadowRoot) walk(node.shadowRoot);
    for (const child of node.childNodes) walk(child);
  };
  walk(host);
  return parts.join('').replace(/\s+/g, ' ').trim();
}

/** The first element that matches, looked for inside shadow roots too. */
export function deep<T extends HTMLElement>(host: Element, selector: string): T {
  const find = (root: ParentNode): T | null => {
    const here = root.querySelector<T>(selector);
    if (here) return here;
    for (const element of root.querySelectorAll('*')) {
      const inside = element.shadowRoot && find(element.shadowRoot);
      if (inside) return inside;
    }
    return null;
  };
  const found = host.shadowRoot && find(host.shadowRoot);
  if (!found) throw new Error(`${selector} is not in ${host.localName}`);
  return found;
}

/** The button whose words or name are these. */
export function button(host: Element, name: string): HTMLButtonElement {
  const all: HTMLButtonElement[] = [];
  const walk = (root: ParentNode): void => {
    for (const element of root.querySelectorAll('*')) {
      if (element instanceof HTMLButtonElement) all.push(element);
      if (element.shadowRoot) walk(element.shadowRoot);
    }
  };
  if (host.shadowRoot) walk(host.shadowRoot);
  const found = all.find((one) => {
    const words = one.textContent?.replace(/\s+/g, ' ').trim();
    return one.getAttribute('aria-label') === name || words === name;
  });
  if (!found) throw new Error(`no button "${name}" in ${host.localName}`);
  return found;
}

/** Types into a field as a person does: the text, then leaving it. */
export function type(field: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
  field.dispatchEvent(new Event('change', { bubbles: true, composed: true }));
}

export function choose(select: HTMLSelectElement, value: string): void {
  select.value = value;
  if (select.value !== value) throw new Error(`${value} is not offered`);
  select.dispatchEvent(new Event('change', { bubbles: true, composed: true }));
}

/** Waits until something is so, looking again at each frame; says what was there when it never is. */
export async function until(isSo: () => boolean, what: () => string): Promise<void> {
  for (let frame = 0; frame < 600; frame++) {
    if (isSo()) return;
    await new Promise((done) => requestAnimationFrame(done));
  }
  throw new Error(`never so: ${what()}`);
}

/** Waits until an element's text holds these words. */
export async function says(host: Element, words: string | RegExp): Promise<string> {
  const isSo = (): boolean =>
    typeof words === 'string' ? allText(host).includes(words) : words.test(allText(host));
  await until(isSo, () => `${String(words)} in: ${allText(host).slice(0, 1500)}`);
  return allText(host);
}
