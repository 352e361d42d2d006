import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { inject } from 'vitest';
import { launchBrowser } from '../browser.ts';

/** The page, open in a browser profile of its own, and what went wrong in it. */
export interface OpenPage {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly browser: Browser;
  readonly address: string;
  /** Uncaught errors and console errors, refusals by the content policy among them. */
  readonly errors: string[];
  /** Addresses asked for that are not the page's own: there must never be any. */
  readonly elsewhere: string[];
  readonly close: () => Promise<void>;
}

/**
 * Starts a browser and opens the built page in it. Each call is a person who has never been here:
 * nothing is kept from another test. A second tab is `context.newPage()`.
 */
export async function openPage(
  options: BrowserContextOptions = {},
  flags: readonly string[] = [],
): Promise<OpenPage> {
  const address = inject('pageAddress');
  const browser = await launchBrowser(flags);
  const context = await browser.newContext({ locale: 'en-GB', ...options });
  const errors: string[] = [];
  const elsewhere: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !/^(data|blob):/.test(url)) elsewhere.push(url);
  });
  context.on('weberror', (error) => errors.push(String(error.error())));
  context.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  const page = await context.newPage();
  await page.goto(address);
  return { page, context, browser, address, errors, elsewhere, close: () => browser.close() };
}
