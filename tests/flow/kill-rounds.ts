import type { Page } from 'playwright-core';
import { makeProfile, startOwnBrowser } from './own-browser.ts';

/** What became of counts typed into a browser that was killed at random moments. */
export interface KillReport {
  readonly rounds: number;
  /** Counts that the page had called saved when it was killed, over all rounds. */
  readonly claimed: number;
  /** Counts found on reopening that the page had not yet called saved: allowed, and welcome. */
  readonly beyond: number;
  /** What was called saved and is not there, in words. */
  readonly lost: readonly string[];
  /** What was never typed so, or is only partly there, in words. */
  readonly half: readonly string[];
}

/** Chamber 1 of the open day, by row: what is there, or was called saved. */
type Column = Readonly<Record<string, string>>;

/** A part of the page's own session: what the header's word "Saved" is taken from. */
interface PageSession {
  readonly saved: { readonly state: string };
  readonly openDay: string | null;
  readonly notebook: {
    readonly readings: Readonly<
      Record<
        string,
        Readonly<
          Record<string, Readonly<Record<string, readonly (readonly [{ text: string } | null])[]>>>
        >
      >
    >;
  };
  subscribeSaved(listener: () => void): void;
}

declare global {
  interface Window {
    /** Put there by the test, as long as a page lives. */
    tellSaved?: (column: Column) => void;
    readColumn?: () => Column;
  }
}

/** Random numbers in a row that a seed fixes (Marsaglia 2003, "Xorshift RNGs", J. Stat. Softw. 8:14). */
function randomFrom(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/** Opens the demo and lets the test hear each time everything typed so far is called saved. */
async function openDemo(page: Page, address: string, onSaved: (column: Column) => void) {
  await page.exposeFunction('tellSaved', onSaved);
  await page.goto(`${address}?demo`);
  await page.getByRole('grid').waitFor();
  await page.evaluate(() => {
    const app = document.querySelector('sd-app') as unknown as { session: PageSession };
    const { session } = app;
    window.readColumn = () => {
      const rows = Object.entries(session.notebook.readings[session.openDay ?? ''] ?? {});
      const cells = rows.map(([row, cells]) => [row, cells['c-chamber1']?.[0]?.[0]?.text ?? '']);
      return Object.fromEntries(cells) as Column;
    };
    session.subscribeSaved(() => {
      if (session.saved.state === 'saved') window.tellSaved?.(window.readColumn?.() ?? {});
    });
  });
  const column = await page.evaluate(() => window.readColumn?.() ?? {});
  if ((await page.getByText('was damaged').count()) > 0)
    throw new Error('The store was found damaged after a kill.');
  return column;
}

/** Puts the keyboard on the first animal's first count of the open day. */
async function enterGrid(page: Page): Promise<void> {
  const grid = page.getByRole('grid');
  const head = grid.getByRole('columnheader', { name: /chamber 1/i }).first();
  const index = await head.getAttribute('aria-colindex');
  const first = grid
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: 'W-101' }) });
  await first.locator(`[aria-colindex="${index}"]`).click();
}

/**
 * Types counts down the first column until the page is gone, or 30 rows are filled. After every third
 * count it is filled into the three rows below it, in one edit. Each number is typed once only.
 */
async function typeUntilGone(page: Page, type: () => string): Promise<void> {
  for (let block = 0; block < 5; block += 1) {
    for (let i = 0; i < 3; i += 1) {
      await page.keyboard.type(type());
      await page.keyboard.press('Enter');
    }
    await page.keyboard.press('ArrowUp');
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+D');
    await page.keyboard.press('ArrowDown');
  }
}

/** A fill is one edit: a number stands in the one row it was typed in, or in all four. */
function partlyFilled(column: Column, typed: ReadonlySet<string>): string[] {
  const times = new Map<string, number>();
  for (const text of Object.values(column)) times.set(text, (times.get(text) ?? 0) + 1);
  return [...times]
    .filter(([text, count]) => typed.has(text) && count !== 1 && count !== 4)
    .map(([text, count]) => `${text} was filled into ${count - 1} of 3 rows`);
}

/** What the rows hold after the kill, against what they were said to hold, and what was typed. */
function compare(
  said: Column,
  found: Column,
  typed: ReadonlySet<string>,
): Pick<KillReport, 'claimed' | 'beyond' | 'lost' | 'half'> {
  const rows = Object.entries(said);
  const differing = rows.filter(([row, text]) => found[row] !== text);
  const isLater = (row: string, text: string): boolean => {
    const now = found[row] ?? '';
    // Of the numbers of a round each is greater than the one before.
    return typed.has(now) && !(typed.has(text) && Number(now) < Number(text));
  };
  const wrong = differing.filter(([row, text]) => !isLater(row, text));
  return {
    claimed: rows.filter(([, text]) => typed.has(text)).length,
    beyond: differing.length - wrong.length,
    lost: wrong.map(([row, text]) => `${row}: ${text} was saved, ${found[row] ?? 'nothing'} found`),
    half: partlyFilled(found, typed),
  };
}

/**
 * Types counts into the demo by keyboard, kills the browser's process at a random moment, opens the
 * same profile again and compares; the next round goes on from there.
 */
export async function killRounds(
  address: string,
  rounds: number,
  seed: number,
): Promise<KillReport> {
  const profile = await makeProfile();
  const random = randomFrom(seed);
  const reports: ReturnType<typeof compare>[] = [];
  let number = 1000;
  const heard: { said: Column } = { said: {} };
  const hear = (now: Column): void => void (heard.said = now);
  let { browser, column } = await reopen(profile.path, address, hear);
  try {
    for (let round = 1; round <= rounds; round += 1) {
      heard.said = column;
      const typed = new Set<string>();
      const wanted = 4 + Math.floor(random() * 11);
      await enterGrid(browser.page);
      const isTyped = new Promise<void>((resolve) => {
        const { page } = browser;
        void typeUntilGone(page, () => {
          number += 1;
          typed.add(String(number));
          if (typed.size === wanted) resolve();
          return String(number);
        }).then(resolve, resolve);
      });
      await isTyped;
      await new Promise((resolve) => setTimeout(resolve, random() * 150));
      await browser.kill();
      const before = heard.said;
      ({ browser, column } = await reopen(profile.path, address, hear));
      reports.push(compare(before, column, typed));
    }
  } finally {
    // After a failure it may be gone already.
    await browser.kill().catch(() => undefined);
    await profile.remove();
  }
  const sum = (part: 'claimed' | 'beyond'): number =>
    reports.reduce((total, report) => total + report[part], 0);
  return {
    rounds,
    claimed: sum('claimed'),
    beyond: sum('beyond'),
    lost: reports.flatMap(({ lost }, i) => lost.map((words) => `round ${i + 1}, ${words}`)),
    half: reports.flatMap(({ half }, i) => half.map((words) => `round ${i + 1}, ${words}`)),
  };
}

async function reopen(profile: string, address: string, onSaved: (column: Column) => void) {
  const browser = await startOwnBrowser(profile);
  try {
    return { browser, column: await openDemo(browser.page, address, onSaved) };
  } catch (error) {
    await browser.kill();
    throw error;
  }
}
