import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdAnimalsDialog } from '../../components/sd-animals-dialog.ts';
import '../../components/sd-animals-dialog.ts';
import type { SdAnimalList } from '../../components/sd-animal-list.ts';
import { deepActive } from '../../components/sd-sheet.ts';
import { groupOn, isPresent } from '../../src/notebook/present.ts';
import { animalOf, animalsOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { openSession } from './open-notebook.ts';
import { allText, button, deep, onPage, says, TODAY, type, until } from './treating-page.ts';

interface Open {
  readonly session: Session;
  readonly dialog: SdAnimalsDialog;
}

async function open(tab?: string): Promise<Open> {
  const session = await openSession();
  const dialog = await onPage<SdAnimalsDialog>(
    session,
    html`<sd-animals-dialog></sd-animals-dialog>`,
  );
  await dialog.open();
  if (tab) button(dialog, tab).click();
  await dialog.updateComplete;
  return { session, dialog };
}

const tags = ({ session }: Open): string[] => animalsOf(session.notebook).map(({ tag }) => tag);

function panel<T extends HTMLElement>(dialog: Element, name: string): T {
  return deep<T>(dialog, name);
}

function tick({ dialog }: Open, tag: string): void {
  const list = panel(dialog, 'sd-animal-list');
  const rows = [...(list.shadowRoot?.querySelectorAll('li') ?? [])];
  const row = rows.find((one) => one.querySelector('b')?.textContent === tag);
  const box = row?.querySelector('input');
  if (!box) throw new Error(`${tag} is not listed`);
  box.click();
}

function fill(host: Element, name: string, value: string): void {
  deep<HTMLInputElement>(host, `[name="${name}"]`).value = value;
}

describe('<sd-animals-dialog>', () => {
  it('shows what pasted tags come to, adds the new ones in one step, and undo takes it back', async () => {
    const at = await open('Add many');
    const many = panel(at.dialog, 'sd-add-animals');
    type(
      deep<HTMLTextAreaElement>(many, 'textarea'),
      'tag\nK-201\tlambs\tlamb\nK-202\tlambs\tlamb\nW-101\n0012',
    );
    await says(at.dialog, '3 new animals, 2 left out');
    await says(at.dialog, 'Line 4, W-101: Already in the notebook');
    button(at.dialog, 'Add 3 animals').click();
    await says(at.dialog, '3 animals are added.');
    expect(tags(at).slice(-3)).to.deep.equal(['K-201', 'K-202', '0012']);
    const added = animalsOf(at.session.notebook).at(-3);
    expect(added?.species).to.equal('sheep');
    expect(added?.class).to.equal('lamb');
    expect(groupOn(at.session.notebook, added?.id ?? '', TODAY)).to.equal('lambs');
    expect(await at.session.undo()).to.deep.include({ label: 'adding 3 animals' });
    expect(tags(at)).to.have.length(40);
  });

  it('says what of a pasted list is left out: columns, and lines without a tag', async () => {
    const { dialog } = await open('Add many');
    const many = panel(dialog, 'sd-add-animals');
    type(deep<HTMLTextAreaElement>(many, 'textarea'), 'K-1\tlambs\tlamb\tBella\n\tlambs\tlamb');
    await says(dialog, '1 new animal, 1 left out');
    await says(dialog, 'Line 1, K-1: Columns after the third are left out: Bella.');
    await says(dialog, 'Line 2: There is no tag on this line.');
  });

  it('points out a group spelled almost like a known one, wherever animals are added', async () => {
    const warning = (name: string): string =>
      `There is a group “ewes” already. “${name}” will be another one.`;
    const at = await open('Add many');
    const many = panel(at.dialog, 'sd-add-animals');
    type(deep<HTMLTextAreaElement>(many, 'textarea'), 'K-1\tEWES\nK-2\tEWES\nK-3\tewes\nK-4');
    await says(many, warning('EWES'));
    expect(allText(many).split('There is a group')).to.have.length(2);
    type(deep<HTMLInputElement>(many, '[name="group"]'), 'Ewes');
    await says(many, warning('Ewes'));
    button(many, 'Add 4 animals').click();
    await until(
      () => !allText(many).includes('There is a group'),
      () => allText(many),
    );
    button(at.dialog, 'Add one').click();
    const one = deep(at.dialog, 'sd-animal-form[slot="one"]');
    type(deep<HTMLInputElement>(one, '[name="group"]'), 'eWes ');
    await says(one, warning('eWes'));
    type(deep<HTMLInputElement>(one, '[name="group"]'), 'ewes ');
    await until(
      () => !allText(one).includes('There is a group'),
      () => allText(one),
    );
    fill(one, 'tag', 'K-5');
    button(one, 'Add the animal').click();
    await says(at.dialog, 'K-5 is added.');
    expect(
      groupOn(at.session.notebook, animalsOf(at.session.notebook).at(-1)?.id ?? '', TODAY),
    ).to.equal('ewes');
  });

  it('takes newcomers as here from the open day on, so that the days before keep their number', async () => {
    const at = await open('Add many');
    const many = panel(at.dialog, 'sd-add-animals');
    type(deep<HTMLTextAreaElement>(many, 'textarea'), 'K-300');
    await says(at.dialog, '1 new animal');
    button(at.dialog, 'Add 1 animal').click();
    await says(at.dialog, 'K-300 is added.');
    const { notebook } = at.session;
    const added = animalsOf(notebook).at(-1);
    if (!added) throw new Error('no animal');
    expect(isPresent(notebook, TODAY, added)).to.be.true;
    expect(isPresent(notebook, '2026-05-10', added)).to.be.false;
  });

  it('refuses a tag that is taken, in its place, and keeps what was typed', async () => {
    const at = await open('Add one');
    const form = panel(at.dialog, 'sd-animal-form');
    fill(form, 'tag', 'W-101');
    fill(form, 'name', 'Nell');
    button(form, 'Add the animal').click();
    await says(at.dialog, 'W-101 is already in the notebook');
    expect(deep<HTMLInputElement>(form, '[name="name"]').value).to.equal('Nell');
    fill(form, 'tag', 'W-199');
    button(form, 'Add the animal').click();
    await says(at.dialog, 'W-199 is added.');
    expect(animalsOf(at.session.notebook).at(-1)?.name).to.equal('Nell');
  });

  it('moves many to a group from a date on', async () => {
    const at = await open();
    tick(at, 'W-101');
    tick(at, 'W-102');
    await says(at.dialog, '2 animals ticked');
    button(at.dialog, 'Move to a group').click();
    await says(at.dialog, 'From this date on');
    fill(at.dialog, 'group', 'rams’ field');
    fill(at.dialog, 'date', '2026-07-01');
    const move = button(at.dialog, 'Move 2 animals');
    move.focus();
    move.click();
    await says(at.dialog, '2 animals from 1 July 2026 on in rams’ field.');
    // The button went with its fields; the focus did not fall out of the list with it.
    const list = panel(at.dialog, 'sd-animal-list');
    await until(
      () => list.shadowRoot?.activeElement?.getAttribute('type') === 'search',
      () => list.shadowRoot?.activeElement?.outerHTML ?? 'nothing has the focus',
    );
    const { notebook } = at.session;
    expect(groupOn(notebook, 'a-W-101', '2026-07-19')).to.equal('rams’ field');
    expect(groupOn(notebook, 'a-W-101', '2026-06-21')).to.equal('ewes');
  });

  it('lets an animal leave and come back; its counts still make it present on days it was counted', async () => {
    const at = await open();
    tick(at, 'W-109');
    await says(at.dialog, 'W-109 ticked');
    button(at.dialog, 'Left the farm').click();
    await says(at.dialog, 'First day no longer here');
    fill(at.dialog, 'date', '2026-07-10');
    fill(at.dialog, 'why', 'sold');
    button(at.dialog, 'W-109 left').click();
    await says(at.dialog, 'left 10 Jul 2026, sold');
    const left = animalOf(at.session.notebook, 'a-W-109');
    expect(left?.left).to.equal('2026-07-10');
    await until(
      () => !button(at.dialog, 'Came back').disabled,
      () => allText(at.dialog),
    );
    button(at.dialog, 'Came back').click();
    await until(
      () => animalOf(at.session.notebook, 'a-W-109')?.left === undefined,
      () => JSON.stringify(animalOf(at.session.notebook, 'a-W-109')),
    );
  });

  it('renames one, puts it elsewhere in the order, and removes it with undo', async () => {
    const at = await open();
    tick(at, 'W-102');
    await says(at.dialog, 'W-102 ticked');
    button(at.dialog, 'Change').click();
    await says(at.dialog, 'Keep the change');
    const form = deep(deep(at.dialog, 'sd-animal-list'), 'sd-animal-form');
    fill(form, 'tag', 'W-102b');
    button(form, 'Keep the change').click();
    await says(at.dialog, 'W-102b is changed.');
    expect(tags(at).slice(0, 3)).to.deep.equal(['W-101', 'W-102b', 'W-103']);
    button(at.dialog, 'Move up').click();
    await until(
      () => tags(at)[0] === 'W-102b',
      () => tags(at).join(),
    );
    button(at.dialog, 'Remove').click();
    await until(
      () => !tags(at).includes('W-102b'),
      () => tags(at).join(),
    );
    await at.session.undo();
    expect(tags(at)[0]).to.equal('W-102b');
  });

  it('keeps the form of an animal, with what is typed into it, whoever is ticked meanwhile', async () => {
    const at = await open();
    tick(at, 'W-102');
    await says(at.dialog, 'W-102 ticked');
    button(at.dialog, 'Change').click();
    await says(at.dialog, 'Change W-102');
    const list = panel(at.dialog, 'sd-animal-list');
    fill(deep(list, 'sd-animal-form'), 'name', 'Bella');
    tick(at, 'W-101');
    await says(at.dialog, '2 animals ticked');
    button(list, 'Came back').click();
    await says(at.dialog, 'None of the animals ticked had left the farm.');
    tick(at, 'W-102');
    await says(at.dialog, 'W-101 ticked');
    button(list, 'Remove').click();
    await says(at.dialog, 'W-101 removed.');
    const form = deep(list, 'sd-animal-form');
    expect(deep<HTMLInputElement>(form, '[name="name"]').value).to.equal('Bella');
    button(form, 'Keep the change').click();
    await says(at.dialog, 'W-102 is changed.');
    expect(animalOf(at.session.notebook, 'a-W-102')?.name).to.equal('Bella');
  });

  it('has the focus on the button that opened a form once the form is done with', async () => {
    const at = await open();
    tick(at, 'W-102');
    await says(at.dialog, 'W-102 ticked');
    button(at.dialog, 'Change').click();
    await says(at.dialog, 'Keep the change');
    const keep = button(
      deep(panel(at.dialog, 'sd-animal-list'), 'sd-animal-form'),
      'Keep the change',
    );
    keep.focus();
    keep.click();
    await until(
      () => deepActive() === button(at.dialog, 'Change'),
      () => deepActive()?.outerHTML ?? 'no focus',
    );
  });

  it('ticks all found beside those ticked before, and unticks no other', async () => {
    const at = await open();
    const list = panel(at.dialog, 'sd-animal-list');
    const search = deep<HTMLInputElement>(list, 'input[type="search"]');
    const all = deep<HTMLInputElement>(list, '.all input');
    type(search, 'G-0');
    await says(list, 'All found (8)');
    all.click();
    await says(list, '8 animals ticked');
    type(search, 'W-1');
    await says(list, 'All found (13)');
    all.click();
    await says(list, '21 animals ticked');
    all.click();
    await says(list, '8 animals ticked');
  });

  it('keeps the ticks where another tab writes and the removal is refused', async () => {
    const at = await open();
    tick(at, 'W-101');
    tick(at, 'W-102');
    await says(at.dialog, '2 animals ticked');
    at.session.mayWrite = () => false;
    button(at.dialog, 'Remove').click();
    await panel<SdAnimalList>(at.dialog, 'sd-animal-list').updateComplete;
    expect(allText(at.dialog)).to.contain('2 animals ticked');
    expect(tags(at)).to.have.length(40);
  });

  it('brings back those that had left, and counts no other', async () => {
    const at = await open();
    tick(at, 'W-109');
    await says(at.dialog, 'W-109 ticked');
    button(at.dialog, 'Left the farm').click();
    await says(at.dialog, 'First day no longer here');
    button(at.dialog, 'W-109 left').click();
    await says(at.dialog, 'W-109 no longer here');
    tick(at, 'W-101');
    tick(at, 'W-102');
    await says(at.dialog, '3 animals ticked');
    button(at.dialog, 'Came back').click();
    await says(at.dialog, 'W-109 here again.');
    expect(at.session.undoLabel).to.equal('bringing back W-109');
    button(at.dialog, 'Came back').click();
    await says(at.dialog, 'None of the animals ticked had left the farm.');
  });

  it('has the focus on its tabs once the last animal is removed', async () => {
    const at = await open();
    const list = panel(at.dialog, 'sd-animal-list');
    deep<HTMLInputElement>(list, '.all input').click();
    await says(list, /\d+ animals ticked/);
    const remove = button(list, 'Remove');
    remove.focus();
    remove.click();
    await says(list, 'No animals yet.');
    await until(
      () => deepActive()?.id === 'tab-list',
      () => deepActive()?.outerHTML ?? 'no focus',
    );
    expect(tags(at)).to.deep.equal([]);
  });

  it('finds by part of a tag, a name or a group', async () => {
    const at = await open();
    const list = panel(at.dialog, 'sd-animal-list');
    type(deep<HTMLInputElement>(list, 'input[type="search"]'), 'brack');
    await says(at.dialog, 'All found (1)');
    expect(list.shadowRoot?.querySelectorAll('li').length).to.equal(1);
  });

  it('has no barrier that axe can find', async () => {
    const { dialog } = await open();
    await expect(dialog).to.be.accessible();
  });
});
