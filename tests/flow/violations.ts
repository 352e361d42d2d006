import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8');

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly html: string }[];
}

/**
 * What axe finds wrong on the page as it stands, shadow roots included: one line for each place. An open dialog is
 * looked at alone, as a person is held in it. `only` names the rules to be looked at; all of them unless given, those
 * of WCAG 2.2 AA among them.
 */
export async function violations(page: Page, only?: readonly string[]): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeSource);
  const found = await page.evaluate(async (rules) => {
    const openDialog = (root: Document | ShadowRoot): Element | null => {
      for (const part of root.querySelectorAll('*')) {
        if (part.matches('dialog:modal')) return part;
        const inner = part.shadowRoot && openDialog(part.shadowRoot);
        if (inner) return inner;
      }
      return null;
    };
    const { axe } = window as unknown as {
      axe: { run(where: Node, how: object): Promise<{ violations: Violation[] }> };
    };
    const how = { resultTypes: ['violations'], ...(rules ? { runOnly: rules } : {}) };
    return (await axe.run(openDialog(document) ?? document, how)).violations;
  }, only);
  return found.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, html }) => `${id}: ${help} at ${JSON.stringify(target)} ${html}`),
  );
}
