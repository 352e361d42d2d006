import type { Page } from 'playwright-core';

/** Drags a file of the disk onto the middle of the page and drops it there, as the browser itself does. */
export async function dropFile(page: Page, path: string): Promise<void> {
  const { width, height } = page.viewportSize() ?? { width: 800, height: 600 };
  const [x, y] = [width / 2, height / 2];
  const data = { items: [], files: [path], dragOperationsMask: 1 };
  const browser = await page.context().newCDPSession(page);
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await browser.send('Input.dispatchDragEvent', { type, x, y, data });
  await browser.detach();
}
