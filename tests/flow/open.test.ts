import { afterAll, beforeAll, expect, it } from 'vitest';
import type { OpenPage } from './open-page.ts';
import { openPage } from './open-page.ts';

let open: OpenPage;

beforeAll(async () => {
  open = await openPage();
});
afterAll(() => open.close());

it('opens under its own name, without an error, asking nothing of another address', async () => {
  await open.page.waitForLoadState('networkidle');
  expect(await open.page.title()).toContain('Sampling Daybook');
  expect(open.errors).toEqual([]);
  expect(open.elsewhere).toEqual([]);
});
