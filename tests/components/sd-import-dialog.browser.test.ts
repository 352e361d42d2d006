import { expect, fixture } from '@open-wc/testing';
import { html } from 'lit';
import type { SdImportDialog } from '../../components/sd-import-dialog.ts';
import '../../components/sd-import-dialog.ts';
import { sessionContext } from '../../components/session-context.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { ContextProvider } from '@lit/context';
import type { Session } from '../../src/session/session.ts';
import { animalsOf, columnByKey, daysOf, readingOf } from '../../src/notebook/read.ts';
import { openSession } from './open-notebook.ts';

let ids = 0;
const services = {
  newId: () => `test-${(ids += 1)}`,
  today: () => '2026-08-01',
  notices: () => [],
  subscribeNotices: () => () => {},
} as unknown as Services;

interface Opened {
  readonly session: Session;
  readonly dialog: SdImportDialog;
  /** An element of the dialog, or of a part of it. */
  readonly find: <T extends Element>(part: string, selector: string) => T | null;
  readonly all: (part: string, selector: string) => HTMLElement[];
  readonly settle: () => Promise<void>;
  readonly say: () => string;
}

async function opened(): Promise<Opened> {
  const session = await openSession();
  const page = document.createElement('main');
  document.body.append(page);
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  const dialog = await fixture<SdImportDialog>(html`<sd-import-dialog></sd-import-dialog>`, {
    parentNode: page,
  });
  await dialog.open();
  const rootOf = (part: string): ParentNode | null | undefined =>
    part === '' ? dialog.renderRoot : dialog.renderRoot.querySelector(part)?.shadowRoot;
  const settle = async (): Promise<void> => {
    for (let i = 0; i < 12; i += 1) {
      await new Promise((done) => setTimeout(done));
      await dialog.updateComplete;
    }
  };
  return {
    session,
    dialog,
    find: (part, selector) => rootOf(part)?.querySelector(selector) ?? null,
    all: (part, selector) => [...(rootOf(part)?.querySelectorAll<HTMLElement>(selector) ?? [])],
    settle,
    say: () =>
      (rootOf('sd-import-findings') as ShadowRoot | null)?.textContent?.replace(/\s+/g, ' ') ?? '',
  };
}

async function looking(text: string): Promise<Opened> {
  const all = await opened();
  await all.dialog.take({ name: 'counts.csv', input: text });
  await all.settle();
  return all;
}

const press = (button: HTMLElement | null): void => button?.click();

describe('<sd-import-dialog>', () => {
  it('takes a pasted list and shows what it would do, changing nothing yet', async () => {
    const { session, find, all, settle, say } = await opened();
    const before = session.notebook;
    const area = find<HTMLTextAreaElement>('sd-import-source', 'textarea');
    if (area)
      area.value = 'tag,date,chamber1,chamber2\nW-101,2026-08-01,4,5\nNEW,2026-08-01,1,12?\n';
    area?.dispatchEvent(new Event('input'));
    find<HTMLFormElement>('sd-import-source', 'form')?.requestSubmit();
    await settle();
    expect(say()).to.contain('1 new animal, 1 known one');
    expect(say()).to.contain('1 August 2026 (new)');
    expect(say()).to.contain('4 values to take, 1 of them kept as typed');
    expect(say()).to.contain('Line 3: chamber 2: "12?" is in doubt');
    expect(all('', '.main').map((button) => button.textContent.trim())).to.deep.equal([
      'Import 4 values of 2 animals',
    ]);
    expect(session.notebook).to.equal(before);
  });

  it('asks what only the person knows, and waits with the import until then', async () => {
    const { session, find, all, settle, say } = await looking('tag,03/04/2026\nNEW,7\n');
    press(find('', '.main'));
    await settle();
    expect(find('', '[role="alert"]')?.textContent).to.contain('Answer what is asked');
    expect(session.undoLabel).to.equal(null);
    const [dayFirst] = all('sd-import-questions', 'input[value="dmy"]');
    dayFirst?.click();
    await settle();
    expect(say()).to.contain('3 April 2026 (new)');
    // Asked with a usual answer: it stands there and need not be given.
    const both = find<HTMLInputElement>('sd-import-questions', 'input[value="all"]');
    expect(both?.checked).to.equal(true);
    press(find('', '.main'));
    await settle();
    expect(session.undoLabel).to.equal('import of counts.csv');
  });

  it('is one edit: one undo takes animals, days and values back', async () => {
    const { session, find, settle } = await looking(
      'tag,date,chamber1\nW-101,2026-08-01,4\nNEW,2026-08-02,1\n',
    );
    const [animals, days] = [animalsOf(session.notebook).length, daysOf(session.notebook).length];
    press(find('', '.main'));
    await settle();
    expect(animalsOf(session.notebook)).to.have.length(animals + 1);
    expect(daysOf(session.notebook)).to.have.length(days + 2);
    expect(session.openDay).to.equal('2026-08-02');
    const column = columnByKey(session.notebook, 'chamber1')?.id ?? '';
    expect(readingOf(session.notebook, '2026-08-01', 'a-W-101', column)?.text).to.equal('4');
    await session.undo();
    expect(animalsOf(session.notebook)).to.have.length(animals);
    expect(daysOf(session.notebook)).to.have.length(days);
    expect(session.undoLabel).to.equal(null);
  });

  it('lets a column be what the person says it is', async () => {
    const { find, settle, say } = await looking('tag,mystery\nW-101,3\nW-102,4\n');
    expect(say()).to.contain('0 values');
    const selects = find('sd-import-columns', 'li:nth-child(2) select') as HTMLSelectElement;
    selects.value = 'column eyelid';
    selects.dispatchEvent(new Event('change'));
    await settle();
    const day = find<HTMLSelectElement>('sd-import-day', 'select');
    expect(day).not.to.equal(null);
    if (day) day.value = '2026-05-10';
    day?.dispatchEvent(new Event('change'));
    await settle();
    // The demo has other eyelid scores for that day: which holds is asked.
    expect(find('sd-import-questions', 'fieldset')?.textContent).to.contain('in the notebook');
  });

  it('reads the list anew with another separator or header line', async () => {
    const { find, settle, say } = await looking('tag|note|x;y\nW-101|a|b\n');
    const [separator, header] = [...find('', '.file')!.querySelectorAll('select')];
    expect(separator?.value).to.equal('|');
    expect(header?.value).to.equal('1');
    if (separator) separator.value = ';';
    separator?.dispatchEvent(new Event('change'));
    await settle();
    expect(find('sd-import-columns', 'li:nth-child(2) b')?.textContent).to.equal('y');
    expect(say()).not.to.equal('');
  });

  it('names every line that it leaves out, with its text', async () => {
    const { say } = await looking(
      'tag,date,chamber1\nA,2026-08-01,1,9\n9.82E+14,2026-08-01,2\nB,2026-08-01,3\n',
    );
    expect(say()).to.contain('2 left out');
    expect(say()).to.contain('Line 2 has 4 fields where 3 are expected: A,2026-08-01,1,9');
    expect(say()).to.contain('Line 3:');
    expect(say()).to.contain('1 new animal');
  });

  it('takes a file that is dropped on it, and shows that it would', async () => {
    const { find, settle, say } = await opened();
    const transfer = new DataTransfer();
    transfer.items.add(new File(['tag,date,chamber1\nNEW,2026-08-01,3\n'], 'dropped.csv'));
    const source = find<HTMLElement>('', 'sd-import-source');
    const drag = (type: string): boolean | undefined =>
      source?.dispatchEvent(
        new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }),
      );
    drag('dragenter');
    await settle();
    expect(find('sd-import-source', '.drop')?.className).to.equal('drop over');
    // Not prevented, the browser would open the file in place of the page.
    expect(drag('dragover')).to.equal(false);
    expect(drag('drop')).to.equal(false);
    // A file is read in the browser's own time.
    for (let i = 0; i < 500 && !say().includes('new animal'); i += 1) await settle();
    expect(find('', '#found')?.textContent).to.equal('dropped.csv');
    expect(say()).to.contain('1 new animal');
  });

  it('stays alive under a long list and says how far it is', async () => {
    const { dialog, find, settle, say } = await opened();
    const rows = Array.from({ length: 20_000 }, (_, i) => `T${i},2026-08-01,${i % 9},1`);
    const seen = new Set<string>();
    const watch = new MutationObserver(() => {
      const text = find('', 'label[for="progress"]')?.textContent?.replace(/\s+/g, ' ').trim();
      if (text) seen.add(text);
    });
    watch.observe(dialog.renderRoot, { subtree: true, childList: true, characterData: true });
    await dialog.take({
      name: 'long.csv',
      input: `tag,date,chamber1,chamber2\n${rows.join('\n')}\n`,
    });
    await settle();
    watch.disconnect();
    expect([...seen].some((text) => /\d+ of 20000/.test(text))).to.equal(true);
    expect(say()).to.contain('20,000 new animals');
  });

  it('is accessible, empty and full', async () => {
    const { dialog, settle } = await opened();
    await expect(dialog).to.be.accessible();
    await dialog.take({
      name: 'counts.csv',
      input: 'tag,kg,03/04/2026,x\nNEW,41.5,TNTC,1\n9.82E+14,1,2,3\n',
    });
    await settle();
    await expect(dialog).to.be.accessible();
  });
});
