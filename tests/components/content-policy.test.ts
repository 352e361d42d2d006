import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PLOT_STYLE_HASH } from '../../components/plot-style.ts';

describe("the page's content policy", () => {
  const page = readFileSync(new URL('../../components/index.html', import.meta.url), 'utf8');
  const styles = /style-src ([^;"]*)/.exec(page)?.[1];

  it("allows the page's own styles and the one style of the charts, nothing else inline", () => {
    expect(styles).toBe(`'self' '${PLOT_STYLE_HASH}'`);
  });
});
