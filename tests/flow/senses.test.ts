import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { everyState, Wanderer } from './every-state.ts';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';
import { violations } from './violations.ts';

describe.each([
  ['at a desk', { viewport: { width: 1280, height: 900 } }],
  ['on a phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }],
] as const)('%s', (_name, look) => {
  let open: OpenPage;
  let wanderer: Wanderer;

  beforeAll(async () => {
    open = await openPage({ ...look, colorScheme: 'light' });
    wanderer = new Wanderer(open.page, open.address);
  });
  afterAll(() => open.close());

  it.each(everyState)('axe finds no barrier: $name', async (state) => {
    const { page } = open;
    await wanderer.visit(state, async () => {
      expect(await violations(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await violations(page, ['color-contrast'])).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
    });
  });

  it('nothing went wrong on the way', () => {
    expect(open.errors).toEqual([]);
  });
});
