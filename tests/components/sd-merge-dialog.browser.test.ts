import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdMergeDialog } from '../../components/sd-merge-dialog.ts';
import '../../components/sd-merge-dialog.ts';
import type { SdClashesDialog } from '../../components/sd-clashes-dialog.ts';
import '../../components/sd-clashes-dialog.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { animalsOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { Copy, counted } from '../notebook/copies.ts';
import { demo, openSession } from './open-notebook.ts';
import { allText, button, deep, onPage, says, until } from './treating-page.ts';

/** The clock of the sessions in these tests begins here. */
const start = 1_780_000_000_000;
const day = '2026-07-19';

function phoneOf(notebook: Notebook, ahead = 0): Copy {
  let ms = start + ahead;
  return new Copy('phone', () => (ms += 10), notebook);
}

async function open(change: (phone: Copy) => void, ahead = 0) {
  const notebook = demo();
  const phone = phoneOf(structuredClone(notebook), ahead);
  change(phone);
  const session = await openSession(notebook);
  const dialog = await onPage<SdMergeDialog>(session, html`<sd-merge-dialog></sd-merge-dialog>`);
  await dialog.open();
  return { session, dialog, theirs: phone.notebook };
}

async function write(session: Session, path: readonly [string, string, string], value: string) {
  const sets = [{ path: path as readonly ['animals', string, string], value }];
  await session.dispatch({ label: 'a test', source: 'typed', sets });
}

describe('sd-merge-dialog', () => {
  it('shows what a copy brings and changes nothing before it is told to', async () => {
    const { session, dialog, theirs } = await open((phone) => {
      phone.type(day, animalsOf(phone.notebook)[0]?.id ?? '', 'c-chamber1', counted(40));
      phone.addAnimal('zz', 'N-900');
    });
    const before = structuredClone(session.notebook);
    dialog.take('phone.json', theirs);
    await says(dialog, 'What phone.json brings');
    expect(allText(dialog)).to.contain('1 reading').and.to.contain('1 animal: N-900');
    expect(session.notebook).to.deep.equal(before);
    button(dialog, 'Make the two copies one').click();
    await until(
      () => session.undoLabel === 'the merge of a second copy',
      () => allText(dialog),
    );
    expect(animalsOf(session.notebook).map(({ tag }) => tag)).to.contain('N-900');
  });

  it('unites animals with one tag, or keeps them apart where a person says so', async () => {
    const { session, dialog, theirs } = await open((phone) => phone.addAnimal('zz', 'N-900'));
    await write(session, ['animals', 'aa', 'tag'], 'N-900');
    dialog.take('phone.json', theirs);
    await says(dialog, 'One animal by its tag');
    const tick = deep<HTMLInputElement>(dialog, 'input[type="checkbox"]');
    expect(tick.getAttribute('aria-label')).to.contain('N-900');
    tick.click();
    await says(dialog, '1 animal: N-900');
    button(dialog, 'Make the two copies one').click();
    await until(
      () => session.undoLabel === 'the merge of a second copy',
      () => allText(dialog),
    );
    expect(animalsOf(session.notebook).filter(({ tag }) => tag === 'N-900')).to.have.length(2);
  });

  it('keeps two animals apart also afterwards, by taking the merge back and doing it anew', async () => {
    const { session, dialog, theirs } = await open((phone) => {
      phone.addAnimal('zz', 'N-900');
      phone.type(day, 'zz', 'c-chamber1', counted(7));
    });
    await write(session, ['animals', 'aa', 'tag'], 'N-900');
    dialog.take('phone.json', theirs);
    await says(dialog, 'One animal by its tag');
    button(dialog, 'Make the two copies one').click();
    await says(dialog, 'The two copies are one');
    const named = () => animalsOf(session.notebook).filter(({ tag }) => tag === 'N-900');
    expect(named()).to.have.length(1);
    button(dialog, 'Keep apart: two animals bear the tag N-900').click();
    await says(dialog, 'kept apart');
    expect(named()).to.have.length(2);
    expect(session.notebook.readings[day]?.['zz']?.['c-chamber1']?.[0]?.[0]).to.deep.equal(
      counted(7),
    );
  });

  it('lists what came back, and removes it again when asked', async () => {
    const { session, dialog, theirs } = await open((phone) => {
      phone.type(day, animalsOf(phone.notebook)[0]?.id ?? '', 'c-chamber1', counted(40));
    });
    const [first] = animalsOf(session.notebook);
    await session.dispatch({
      label: 'a test',
      source: 'typed',
      sets: [{ path: ['animals', first?.id ?? '', 'removed'], value: true }],
    });
    dialog.take('phone.json', theirs);
    await says(dialog, 'They come back');
    button(dialog, 'Make the two copies one').click();
    await says(dialog, 'They are back');
    expect(animalsOf(session.notebook).some(({ id }) => id === first?.id)).to.equal(true);
    button(dialog, 'Remove again').click();
    await says(dialog, 'removed again');
    expect(animalsOf(session.notebook).some(({ id }) => id === first?.id)).to.equal(false);
  });

  it('reports a clock that runs days ahead', async () => {
    const { dialog, theirs } = await open(
      (phone) => phone.addAnimal('zz', 'N-900'),
      5 * 24 * 3_600_000,
    );
    dialog.take('phone.json', theirs);
    await says(dialog, '5 days ahead');
  });

  it('says of another notebook that it is none of its copies, and offers to open it', async () => {
    const { dialog, theirs } = await open(() => undefined);
    dialog.take('other.json', { ...theirs, id: 'another' });
    await says(dialog, 'Only two copies of one notebook can be made one.');
    let opened: Notebook | undefined;
    dialog.addEventListener('open-file', (event) => {
      opened = (event as CustomEvent<{ notebook: Notebook }>).detail.notebook;
    });
    button(dialog, 'Open it as a notebook of its own').click();
    expect(opened?.id).to.equal('another');
  });
});

describe('sd-clashes-dialog', () => {
  it('shows both values of a place, takes a choice, and shows one made elsewhere gone', async () => {
    const notebook = demo();
    const [one, two] = animalsOf(notebook);
    const phone = phoneOf(structuredClone(notebook));
    const edit = (id: string, name: string) =>
      ({
        label: 'a test',
        source: 'typed',
        sets: [{ path: ['animals', id, 'name'], value: name }],
      }) as const;
    for (const animal of [one, two])
      phone.write({ path: ['animals', animal?.id ?? '', 'name'], value: 'Willow' });
    const session = await openSession(notebook);
    for (const animal of [one, two]) await session.dispatch(edit(animal?.id ?? '', 'Bramble'));
    await session.merge(phone.notebook);
    const dialog = await onPage<SdClashesDialog>(
      session,
      html`<sd-clashes-dialog></sd-clashes-dialog>`,
    );
    await dialog.open();
    await says(dialog, `${one?.tag} · name`);
    const group = deep<HTMLElement>(dialog, '[role="group"]');
    const willow = [...group.querySelectorAll('button')].find((b) =>
      b.textContent?.includes('Willow'),
    );
    willow?.click();
    await says(dialog, `${one?.tag} · name: Willow stands.`);
    expect(animalsOf(session.notebook)[0]?.name).to.equal('Willow');
    await session.dispatch(edit(two?.id ?? '', 'Bracken'));
    await says(dialog, 'Nowhere: every value is settled.');
  });

  it('is the same after an undo of the choice', async () => {
    const notebook = demo();
    const id = animalsOf(notebook)[0]?.id ?? '';
    const phone = phoneOf(structuredClone(notebook));
    phone.write({ path: ['animals', id, 'name'], value: 'Willow' });
    const sets = [{ path: ['animals', id, 'name'] as const, value: 'Bramble' }];
    const here = applyEdit(notebook, { label: 'x', source: 'typed', sets }, [start, 5, 'bench']);
    const session = await openSession(here.notebook);
    await session.merge(phone.notebook);
    const dialog = await onPage<SdClashesDialog>(
      session,
      html`<sd-clashes-dialog></sd-clashes-dialog>`,
    );
    await dialog.open();
    await says(dialog, 'Bramble');
    deep<HTMLButtonElement>(dialog, '.values button').click();
    await says(dialog, 'Nowhere');
    await session.undo();
    await says(dialog, 'Willow');
  });
});
