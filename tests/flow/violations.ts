import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8');

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly html: string }[];
}

/** What axe finds wrong on the page as it stands, shadow roots included: one line for each place. */
export async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(): Promise<{ violations: Violation[] }> };
    };
    return (await axe.run()).violations;
  });
  return found.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, html }) => `${id}: ${help} at ${JSON.stringify(target)} ${html}`),
  );
}
