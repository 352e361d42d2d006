import { expect, waitUntil } from '@open-wc/testing';
import { setViewport } from '@web/test-runner-commands';
import axe from 'axe-core';
import '../../components/sd-columns-dialog.ts';
import type { SdColumnsDialog } from '../../components/sd-columns-dialog.ts';
import { columnByKey, columnsOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { plainSession, sessionAgain, wrongFormula } from './fake-session.ts';
import { SessionGiver } from './grid-fixture.ts';

async function dialogOf(session: Session, show: string | null): Promise<SdColumnsDialog> {
  const giver = new SessionGiver();
  document.body.append(giver);
  giver.session = session;
  const dialog = document.createElement('sd-columns-dialog');
  giver.append(dialog);
  await dialog.updateComplete;
  dialog.show(show);
  await dialog.open();
  await dialog.updateComplete;
  return dialog;
}

function type(dialog: SdColumnsDialog, name: string, value: string): void {
  const input = dialog.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`);
  if (!input) throw new Error(`no field ${name}`);
  input.value = value;
  input.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
}

async function submit(dialog: SdColumnsDialog): Promise<void> {
  dialog.renderRoot.querySelector<HTMLFormElement>('form')?.requestSubmit();
  await new Promise((done) => setTimeout(done));
  await dialog.updateComplete;
}

afterEach(() => document.querySelectorAll('sd-session-giver').forEach((giver) => giver.remove()));

describe('sd-columns-dialog', () => {
  it('has tick boxes of one size on a phone, however long the name beside them', async () => {
    await setViewport({ width: 390, height: 844 });
    try {
      const { session } = await plainSession(2);
      const dialog = await dialogOf(session, null);
      const boxes = [...dialog.renderRoot.querySelectorAll<HTMLElement>('li input')];
      const widths = new Set(boxes.map((box) => Math.round(box.getBoundingClientRect().width)));
      expect(boxes.length).to.be.greaterThan(10);
      expect([...widths]).to.have.length(1);
    } finally {
      await setViewport({ width: 800, height: 600 });
    }
  });

  it('lists all columns, and shows a hidden one by its tick, as one step', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, null);
    expect(dialog.renderRoot.querySelectorAll('li').length).to.equal(
      columnsOf(session.notebook).length,
    );
    const box = [...dialog.renderRoot.querySelectorAll('li label')].find((label) =>
      label.textContent.includes('dags'),
    );
    box?.querySelector('input')?.click();
    await waitUntil(() => columnByKey(session.notebook, 'dag')?.hidden === false);
    await session.undo();
    expect(columnByKey(session.notebook, 'dag')?.hidden).to.equal(true);
  });

  it('keeps a tick and a form as they are where another tab writes', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, 'new');
    type(dialog, 'label', 'lungs');
    const giver = dialog.closest<SessionGiver>('sd-session-giver');
    let refusals = 0;
    if (giver) giver.session = sessionAgain(session, 'following', () => (refusals += 1));
    await submit(dialog);
    expect(refusals).to.equal(1);
    expect(dialog.renderRoot.querySelector<HTMLInputElement>('[name="label"]')?.value).to.equal(
      'lungs',
    );
    dialog.show(null);
    await dialog.updateComplete;
    const box = dialog.renderRoot.querySelector<HTMLInputElement>('li input');
    const was = box?.checked;
    box?.click();
    expect(box?.checked).to.equal(!was);
    await waitUntil(() => refusals === 2);
    await dialog.updateComplete;
    expect(box?.checked).to.equal(was);
  });

  it('moves a column one place', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, null);
    const keys = (): readonly string[] => columnsOf(session.notebook).map(({ key }) => key);
    const [first = '', second = ''] = keys();
    dialog.renderRoot
      .querySelector<HTMLButtonElement>(`button[aria-label="Move ${first} to the right"]`)
      ?.click();
    await waitUntil(() => keys()[0] === second);
    expect(keys()[1]).to.equal(first);
  });

  it('takes the focus along from the list to a column and back', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, null);
    const focusedIn = (): Element | null | undefined => dialog.shadowRoot?.activeElement;
    const change = dialog.renderRoot.querySelector<HTMLElement>('[data-change="c-chamber1"]');
    change?.focus();
    change?.click();
    await waitUntil(() => focusedIn()?.localName === 'input');
    expect(focusedIn()?.closest('form')).not.to.equal(null);
    await submit(dialog);
    await waitUntil(() => focusedIn()?.getAttribute('data-change') === 'c-chamber1');
    dialog.renderRoot.querySelector<HTMLElement>('.add')?.click();
    await waitUntil(() => focusedIn()?.localName === 'input');
  });

  it('adds a column, with a name in formulas made from its label', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, 'new');
    type(dialog, 'label', 'Rectal temperature');
    type(dialog, 'unit', '°C');
    await submit(dialog);
    await waitUntil(() => columnByKey(session.notebook, 'rectal_temperature'));
    const column = columnByKey(session.notebook, 'rectal_temperature');
    expect(column).to.include({ label: 'Rectal temperature', unit: '°C', kind: 'number' });
  });

  it('refuses a name that is taken and says whose it is; what was typed stays', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, 'new');
    type(dialog, 'label', 'Mine');
    type(dialog, 'key', 'epg');
    await submit(dialog);
    expect(dialog.renderRoot.querySelector('[role="alert"]')?.textContent).to.contain('already');
    expect(dialog.renderRoot.querySelector<HTMLInputElement>('[name="label"]')?.value).to.equal(
      'Mine',
    );
    expect(session.undoLabel).to.equal(null);
  });

  it('renames a column in formulas by one field: the stored formulas stay', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, 'c-chamber1');
    type(dialog, 'key', 'left');
    type(dialog, 'label', 'left grid');
    await submit(dialog);
    await waitUntil(() => columnByKey(session.notebook, 'left'));
    expect(columnByKey(session.notebook, 'left')?.label).to.equal('left grid');
  });

  it('has what was typed and not kept there again, column by column, until it is kept or let go', async () => {
    const { session } = await plainSession(2);
    const epg = columnByKey(session.notebook, 'epg')?.id ?? '';
    const dialog = await dialogOf(session, epg);
    const shown = async (column: string, name: string): Promise<string | undefined> => {
      dialog.renderRoot.querySelector('sd-sheet')?.close();
      dialog.show(column);
      await dialog.open();
      await dialog.updateComplete;
      return dialog.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value;
    };
    const remark = (): boolean => dialog.renderRoot.textContent?.includes('not kept yet') ?? false;
    expect(remark()).to.equal(false);
    type(dialog, 'help', 'as we count it');
    expect(await shown('new', 'label')).to.equal('');
    type(dialog, 'label', 'dung smell');
    expect(await shown(epg, 'help')).to.equal('as we count it');
    expect(remark()).to.equal(true);
    await submit(dialog);
    expect(columnByKey(session.notebook, 'epg')?.help).to.equal('as we count it');
    expect(await shown('new', 'label')).to.equal('dung smell');
    const afresh = [...dialog.renderRoot.querySelectorAll('button')].find((button) =>
      button.textContent.includes('Start afresh'),
    );
    afresh?.click();
    await dialog.updateComplete;
    expect(remark()).to.equal(false);
    expect(dialog.renderRoot.querySelector<HTMLInputElement>('[name="label"]')?.value).to.equal('');
  });

  it('clears what was emptied, and reads and writes numbers with the decimal mark of the notebook', async () => {
    const { session } = await plainSession(2);
    const path = ['about', 'notebook', 'decimalMark'] as const;
    await session.dispatch({ label: 'mark', source: 'typed', sets: [{ path, value: ',' }] });
    const id = columnByKey(session.notebook, 'condition')?.id ?? '';
    const dialog = await dialogOf(session, id);
    const valueOf = (name: string): string =>
      dialog.renderRoot.querySelector<HTMLInputElement>(`[name="${name}"]`)?.value ?? '';
    expect(valueOf('step')).to.equal('0,5');
    type(dialog, 'high', '');
    type(dialog, 'step', '0,25');
    await submit(dialog);
    expect(columnByKey(session.notebook, 'condition')?.high).to.equal(undefined);
    expect(columnByKey(session.notebook, 'condition')?.step).to.equal(0.25);
    await session.undo();
    expect(columnByKey(session.notebook, 'condition')?.high).to.equal(5);
  });

  it('refuses a wrong formula with its sentence', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, 'c-epg');
    const field = dialog.renderRoot.querySelector('sd-formula-field');
    field?.dispatchEvent(
      new CustomEvent('sd-formula-change', { detail: { value: 'epq', fault: null } }),
    );
    await submit(dialog);
    expect(dialog.renderRoot.querySelector('[role="alert"]')?.textContent).to.equal(
      wrongFormula.sentence,
    );
  });

  it('has no axe violations, as a list and as a form', async () => {
    const { session } = await plainSession(2);
    const dialog = await dialogOf(session, null);
    const check = async (): Promise<readonly string[]> => {
      const { violations } = await axe.run(dialog, { rules: { region: { enabled: false } } });
      return violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`);
    };
    expect(await check()).to.deep.equal([]);
    dialog.show('c-eyelid');
    await dialog.updateComplete;
    expect(await check()).to.deep.equal([]);
  });
});
