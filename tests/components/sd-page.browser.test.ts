import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdBlock } from '../../components/sd-block.ts';
import type { SdPage } from '../../components/sd-page.ts';
import '../../components/sd-page.ts';
import type { BlockKind, Notebook } from '../../shared/notebook.ts';
import { aboutOf, blocksOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import type { Session } from '../../src/session/session.ts';
import { demo, openSession } from './open-notebook.ts';
import { allText, button, deep, onPage, says, type, until, withFacts } from './treating-page.ts';

interface Open {
  readonly session: Session;
  readonly page: SdPage;
}

/** The page of a notebook with these blocks alone. */
async function open(
  blocks: readonly { readonly kind: BlockKind; readonly title: string; readonly text?: string }[],
): Promise<Open> {
  const start = demo();
  const sets = [
    ...blocksOf(start).flatMap(({ id }) => setsOf('blocks', id, { removed: true })),
    ...blocks.flatMap((facts, i) => setsOf('blocks', `x-${i}`, { ...facts, order: `a${i}` })),
  ];
  const notebook: Notebook = withFacts(start, sets);
  const session = await openSession(notebook);
  const page = await onPage<SdPage>(session, html`<sd-page></sd-page>`);
  await until(
    () => page.renderRoot.querySelectorAll('sd-block').length === blocks.length,
    () => allText(page).slice(0, 500),
  );
  return { session, page };
}

const titles = ({ session }: Open): string =>
  blocksOf(session.notebook)
    .map(({ title }) => title)
    .join(' | ');

const block = ({ page }: Open, title: string): SdBlock => {
  const all = [...page.renderRoot.querySelectorAll<SdBlock>('sd-block')];
  const found = all.find((one) => one.block?.title === title);
  if (!found) throw new Error(`no block ${title}`);
  return found;
};

const two = [
  { kind: 'note', title: 'First', text: 'one' },
  { kind: 'note', title: 'Second', text: 'two' },
] as const;

describe('<sd-page>', () => {
  it('bears the notebook’s name, place and how many are counted', async () => {
    const { page, session } = await open(two);
    await says(page, '35 counted of 40 present');
    const head = deep(page, 'sd-page-header');
    expect(deep(head, 'h1').textContent?.trim()).to.equal(aboutOf(session.notebook).title);
  });

  it('keeps a block of a kind it does not know, says so, and shows the others', async () => {
    const at = await open([
      { kind: 'weather' as BlockKind, title: 'Rain', text: 'kept' },
      { kind: 'note', title: 'Mine', text: 'words' },
    ]);
    await says(block(at, 'Rain'), 'cannot show a block of the kind "weather"');
    await until(
      () => deep<HTMLTextAreaElement>(block(at, 'Mine'), 'textarea').value === 'words',
      () => allText(at.page),
    );
    expect(blocksOf(at.session.notebook)[0]?.text).to.equal('kept');
  });

  it('moves a block, and takes one off with undo offered', async () => {
    const at = await open(two);
    button(block(at, 'Second'), 'Move up').click();
    await until(
      () => titles(at) === 'Second | First',
      () => titles(at),
    );
    button(block(at, 'First'), 'Take off the page').click();
    await says(at.page, '"First" is off the page.');
    expect(titles(at)).to.equal('Second');
    deep<HTMLButtonElement>(at.page, '.message button').click();
    await until(
      () => titles(at) === 'Second | First',
      () => titles(at),
    );
  });

  it('folds a block and remembers it', async () => {
    const at = await open(two);
    button(block(at, 'First'), 'First').click();
    await until(
      () => blocksOf(at.session.notebook)[0]?.folded === true,
      () => allText(at.page),
    );
    const fold = (): string | null =>
      button(block(at, 'First'), 'First').getAttribute('aria-expanded');
    await until(
      () => fold() === 'false',
      () => String(fold()),
    );
  });

  it('renames a block, but not to nothing', async () => {
    const at = await open(two);
    button(block(at, 'First'), 'Rename').click();
    const dialog = deep(block(at, 'First'), 'sd-rename-block');
    const input = deep<HTMLInputElement>(dialog, 'input');
    await until(
      () => deep<HTMLDialogElement>(dialog, 'dialog').open,
      () => allText(dialog),
    );
    input.value = '';
    button(dialog, 'Rename').click();
    await says(dialog, 'Type a heading');
    input.value = 'To remember';
    button(dialog, 'Rename').click();
    await until(
      () => titles(at) === 'To remember | Second',
      () => titles(at),
    );
  });

  it('keeps a note as it was typed, what looks like a formula too', async () => {
    const at = await open(two);
    await until(
      () => deep<HTMLTextAreaElement>(block(at, 'First'), 'textarea').value === 'one',
      () => allText(at.page),
    );
    type(deep<HTMLTextAreaElement>(block(at, 'First'), 'textarea'), '=big worms?\n+50');
    await until(
      () => blocksOf(at.session.notebook)[0]?.text === '=big worms?\n+50',
      () => String(blocksOf(at.session.notebook)[0]?.text),
    );
    await at.session.undo();
    await until(
      () => deep<HTMLTextAreaElement>(block(at, 'First'), 'textarea').value === 'one',
      () => deep<HTMLTextAreaElement>(block(at, 'First'), 'textarea').value,
    );
  });

  it('ticks the check list for the open day alone', async () => {
    const at = await open([{ kind: 'check list', title: 'Check', text: 'cups\ngloves' }]);
    await says(at.page, '0 of 2 done');
    deep<HTMLInputElement>(block(at, 'Check'), 'input[type="checkbox"]').click();
    await says(at.page, '1 of 2 done');
    await at.session.open('2026-06-07');
    await says(at.page, '0 of 2 done');
    await at.session.open('2026-07-19');
    await says(at.page, '1 of 2 done');
  });

  it('takes back and does again by Ctrl+Z and Ctrl+Y, and says what', async () => {
    const at = await open(two);
    button(block(at, 'Second'), 'Move up').click();
    await until(
      () => titles(at) === 'Second | First',
      () => titles(at),
    );
    const press = (key: string): boolean =>
      window.dispatchEvent(new KeyboardEvent('keydown', { key, ctrlKey: true, cancelable: true }));
    press('z');
    await says(at.page, 'Undone: the order of blocks.');
    expect(titles(at)).to.equal('First | Second');
    press('y');
    await says(at.page, 'Done again: the order of blocks.');
    expect(titles(at)).to.equal('Second | First');
  });
});
