import { expect, waitUntil } from '@open-wc/testing';
import { html } from 'lit';
import type { SdExportDialog } from '../../components/sd-export-dialog.ts';
import '../../components/sd-export-dialog.ts';
import { exportFiles } from '../../components/export-files.ts';
import { canShareFiles, shareFiles } from '../../components/share-files.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { demo, openSession, underSession } from './open-notebook.ts';

const place = applyEdit(
  demo(),
  {
    label: '',
    source: 'typed',
    sets: [{ path: ['about', 'notebook', 'place'], value: 'Hill/Farm' }],
  },
  [9, 0, 'bench'],
).notebook;

async function opened() {
  const session = await openSession(place, createEngine());
  const dialog = await underSession<SdExportDialog>(
    session,
    html`<sd-export-dialog></sd-export-dialog>`,
  );
  await dialog.open();
  const root = dialog.renderRoot;
  return { dialog, root, selects: () => [...root.querySelectorAll('select')] };
}

describe('<sd-export-dialog>', () => {
  it('offers the open day, for the vet', async () => {
    const { root, selects } = await opened();
    expect(selects().map(({ value }) => value)).to.deep.equal([
      '2026-07-19',
      '2026-07-19',
      'comma',
    ]);
    expect(root.querySelector<HTMLInputElement>('input:checked')?.value).to.equal('vet');
    expect(root.querySelector('.hint')?.textContent).to.equal('One sampling day.');
  });

  it('takes the whole season with one press', async () => {
    const { dialog, root } = await opened();
    root.querySelector<HTMLElement>('.quiet')?.click();
    await dialog.updateComplete;
    expect(root.querySelector('.hint')?.textContent).to.equal('4 sampling days.');
  });

  it('keeps the focus on the button that saves, and saves once, while it works', async () => {
    const { dialog, root } = await opened();
    const save = root.querySelector<HTMLButtonElement>('button.main');
    if (!save) throw new Error('no button to save with');
    let saved = 0;
    const { click } = HTMLAnchorElement.prototype;
    HTMLAnchorElement.prototype.click = () => void (saved += 1);
    try {
      save.focus();
      save.click();
      await dialog.updateComplete;
      expect(save.getAttribute('aria-disabled')).to.equal('true');
      save.click();
      const status = root.querySelector('[role="status"]');
      await waitUntil(() => status?.textContent.startsWith('Saved:'), 'it saves', {
        timeout: 10_000,
      });
      expect(dialog.shadowRoot?.activeElement === save).to.equal(true);
      expect(save.getAttribute('aria-disabled')).to.equal('false');
      expect(saved).to.equal(2);
    } finally {
      HTMLAnchorElement.prototype.click = click;
    }
  });

  it('is accessible', async () => {
    const { dialog } = await opened();
    await expect(dialog).to.be.accessible();
  });
});

describe('exportFiles(notebook, wish)', () => {
  it('names farm, day and kind, and keeps marks out that a system refuses', async () => {
    const days = ['2026-07-19'];
    const vet = await exportFiles(place, { kind: 'vet', days, style: 'comma' }, () => undefined);
    expect(vet.map(({ name }) => name)).to.deep.equal([
      'Hill Farm 2026-07-19 for the vet.csv',
      'Hill Farm 2026-07-19 for the vet, method and cautions.csv',
    ]);
    const season = ['2026-05-10', '2026-06-07', '2026-06-21', '2026-07-19'];
    const told: string[] = [];
    const tidy = await exportFiles(place, { kind: 'tidy', days: season, style: 'comma' }, (n, of) =>
      told.push(`${n} of ${of}`),
    );
    expect(tidy.map(({ name }) => name)).to.deep.equal([
      'Hill Farm 2026-05-10 to 2026-07-19 tidy.csv',
    ]);
    expect(told).to.deep.equal(['1 of 4', '2 of 4', '3 of 4', '4 of 4']);
  });
});

describe('shareFiles(navigator, files)', () => {
  const sharing = (share: () => Promise<void>): Navigator =>
    ({ canShare: () => true, share }) as unknown as Navigator;

  it('is offered only where the device takes files', () => {
    expect(canShareFiles(sharing(() => Promise.resolve()))).to.equal(true);
    expect(canShareFiles({} as Navigator)).to.equal(false);
  });

  it('says no where the person thought better of it, and fails where the device does', async () => {
    const stopped = sharing(() => Promise.reject(new DOMException('', 'AbortError')));
    expect(await shareFiles(stopped, [])).to.equal(false);
    const refused = sharing(() => Promise.reject(new DOMException('', 'NotAllowedError')));
    let failed = false;
    await shareFiles(refused, []).catch(() => (failed = true));
    expect(failed).to.equal(true);
  });
});
