import { expect, waitUntil } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import type { SdGrid } from '../../components/sd-grid.ts';
import type { Session } from '../../src/session/session.ts';
import { plainSession, typedIn } from './fake-session.ts';
import { focused, gridOf, press, settled } from './grid-fixture.ts';

async function plainGrid(count = 6): Promise<{ grid: SdGrid; session: Session; columns: number }> {
  const { session } = await plainSession(count);
  const grid = await gridOf(session);
  grid.focus();
  await settled(grid);
  return { grid, session, columns: grid.model.sheet.layout.columns.length };
}

/** Waits for a sentence: they come at most once a second. */
async function said(grid: SdGrid, sentence: string): Promise<void> {
  const status = (): string => grid.renderRoot.querySelector('.status')?.textContent ?? '';
  await waitUntil(() => status().startsWith(sentence), `"${sentence}" is said`, {
    timeout: 2500,
  }).catch((reason: unknown) => {
    throw new Error(`${String(reason)}; said was "${status()}"`);
  });
}

async function choose(grid: SdGrid, words: string): Promise<void> {
  await press(grid, 'Shift+F10');
  const items = [...grid.renderRoot.querySelectorAll<HTMLElement>('[role="menuitem"]')];
  items.find((item) => item.textContent.trim() === words)?.click();
  await settled(grid);
}

describe('sd-grid: what is said', () => {
  it('names the cell a key goes to at once, though a drawing was waiting for the next frame', async () => {
    const { grid } = await plainGrid();
    const frame = window.requestAnimationFrame;
    window.requestAnimationFrame = () => 0;
    try {
      grid.requestUpdate();
      await new Promise((done) => setTimeout(done));
      await sendKeys({ press: 'Control+Home' });
      await new Promise((done) => setTimeout(done));
      expect(focused(grid)).to.equal('A-001 status');
      expect(grid.editor.input.ariaLabel).to.equal('A-001, status, empty');
    } finally {
      window.requestAnimationFrame = frame;
    }
  });

  it('says how many cells are chosen with whole rows, columns and all', async () => {
    const { grid, columns } = await plainGrid();
    await press(grid, 'Shift+Space');
    await said(grid, `${columns} cells chosen.`);
    await press(grid, 'ArrowDown', 'Control+Space');
    await said(grid, '6 cells chosen.');
    await press(grid, 'Control+a');
    await said(grid, `${6 * columns} cells chosen.`);
  });

  it('says how the rows are sorted, and that they are back in their order', async () => {
    const { grid } = await plainGrid();
    await choose(grid, 'Sort: highest first');
    await said(grid, 'Sorted by chamber 1, highest first.');
    await choose(grid, 'Sort: lowest first');
    await said(grid, 'Sorted by chamber 1, lowest first.');
    await choose(grid, 'Back to the notebook’s order');
    await said(grid, 'The rows stand in the notebook’s order.');
  });

  it('says where a column went', async () => {
    const { grid } = await plainGrid();
    await choose(grid, 'Move left');
    await said(grid, 'chamber 1 stands left of status now.');
    expect(grid.hand.spot?.column).to.equal(0);
    await choose(grid, 'Move right');
    await said(grid, 'chamber 1 stands right of status now.');
    expect(grid.hand.spot?.column).to.equal(1);
  });

  it('says why nothing is filled down into the first row', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'Control+d');
    await said(grid, 'No row stands above to be filled down from.');
    expect(session.undoLabel).to.equal(null);
  });

  it('says too many eggs to count, not too many epg', async () => {
    const { grid, session } = await plainGrid();
    await press(grid, 'tntc', 'Enter');
    expect(typedIn(session, 'A-001', 'chamber1')).to.equal('tntc');
    await said(grid, 'A-001: too many eggs to count');
    await press(grid, '>40', 'Enter');
    await said(grid, 'A-002: at least 4,100 epg');
  });
});
