import type { BrowserContext, Page } from 'playwright-core';

/** Notes every refusal by the content policy from the first line of every page of a context on. */
export async function noteRefusals(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const noted: string[] = [];
    Object.assign(window, { refusals: noted });
    document.addEventListener('securitypolicyviolation', (event) => {
      noted.push(`${event.violatedDirective}: ${event.blockedURI} ${event.sample}`);
    });
  });
}

/** What the content policy has refused on this page since it was loaded. */
export function refusals(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => (window as unknown as { refusals: string[] }).refusals);
}
