import { ContextProvider } from '@lit/context';
import { expect, fixture, waitUntil } from '@open-wc/testing';
import { sendKeys } from '@web/test-runner-commands';
import axe from 'axe-core';
import { html } from 'lit';
import type { SdCard } from '../../components/sd-card.ts';
import '../../components/sd-card.ts';
import { servicesContext, type Services } from '../../components/services.ts';
import { presentAnimals } from '../../src/notebook/present.ts';
import { columnByKey, readingOf } from '../../src/notebook/read.ts';
import type { Session } from '../../src/session/session.ts';
import { sessionAgain } from './fake-session.ts';
import type { SessionGiver } from './grid-fixture.ts';
import './grid-fixture.ts';
import { openSession, textOf, underSession } from './open-notebook.ts';

async function cardOf(): Promise<{ card: SdCard; session: Session }> {
  const session = await openSession();
  const card = await underSession<SdCard>(session, html`<sd-card></sd-card>`);
  await settled(card);
  return { card, session };
}

async function settled(card: SdCard): Promise<void> {
  for (let i = 0; i < 4; i += 1) {
    await new Promise((done) => setTimeout(done));
    await card.updateComplete;
  }
}

function field(card: SdCard, key: string): HTMLInputElement {
  const input = card.renderRoot.querySelector<HTMLInputElement>(`[data-column="${key}"] input`);
  if (!input) throw new Error(`The card has no field for ${key}.`);
  return input;
}

function press(card: SdCard, name: string): void {
  const buttons = [...card.renderRoot.querySelectorAll('button')];
  const button = buttons.find(
    (b) => (b.ariaLabel ?? b.textContent.replace(/\s+/g, ' ').trim()) === name,
  );
  if (!button) throw new Error(`The card has no button ${name}.`);
  button.click();
}

/** What a soft keyboard does: no usable keydown, only input events; then focus goes elsewhere. */
function softType(input: HTMLInputElement, text: string): void {
  input.focus();
  input.value = text;
  input.dispatchEvent(new InputEvent('input', { bubbles: true, inputType: 'insertText' }));
  input.blur();
}

function typed(session: Session, tag: string, key: string): string | undefined {
  const column = columnByKey(session.notebook, key);
  return readingOf(session.notebook, session.openDay ?? '', `a-${tag}`, column?.id ?? '')?.text;
}

before(() => {
  const services = { newId: () => 'a-new' } as unknown as Services;
  new ContextProvider(document.body, { context: servicesContext, initialValue: services });
});

/** Types into a field whose focus stays there, as before a button that keeps the keypad up. */
function softTypeOn(input: HTMLInputElement, text: string): void {
  input.focus();
  input.value = text;
  input.dispatchEvent(new InputEvent('input', { bubbles: true, inputType: 'insertText' }));
}

beforeEach(() => sessionStorage.clear());

describe('sd-card: what is typed and what is taken back', () => {
  it('leaves a note of several lines alone that was only gone through, and keeps its lines when typed on', async () => {
    const { card, session } = await cardOf();
    const note = columnByKey(session.notebook, 'note')?.id ?? '';
    const day = session.openDay ?? '';
    await session.dispatch({
      label: 'note',
      source: 'typed',
      sets: [
        { path: ['readings', day, 'a-W-101', note], value: { kind: 'text', text: 'one\ntwo' } },
      ],
    });
    await settled(card);
    const label = session.undoLabel;
    field(card, 'note').focus();
    field(card, 'note').blur();
    await settled(card);
    expect(session.undoLabel).to.equal(label);
    expect(typed(session, 'W-101', 'note')).to.equal('one\ntwo');
    softType(field(card, 'note'), `${field(card, 'note').value}, three`);
    await settled(card);
    expect(typed(session, 'W-101', 'note')).to.equal('one\ntwo, three');
  });

  it('scores with the decimal mark of the notebook', async () => {
    const { card, session } = await cardOf();
    await session.dispatch({
      label: 'mark',
      source: 'typed',
      sets: [
        { path: ['about', 'notebook', 'decimalMark'], value: ',' },
        {
          path: ['columns', columnByKey(session.notebook, 'condition')?.id ?? '', 'high'],
          value: 3,
        },
      ],
    });
    await settled(card);
    press(card, '1,5');
    await settled(card);
    const column = columnByKey(session.notebook, 'condition')?.id ?? '';
    const reading = readingOf(session.notebook, session.openDay ?? '', 'a-W-101', column);
    expect(reading).to.deep.equal({ kind: 'number', text: '1,5', value: 1.5 });
  });

  it('takes back what was typed last, also while it still stands in its field', async () => {
    const { card, session } = await cardOf();
    const before = typed(session, 'W-101', 'chamber2');
    softType(field(card, 'chamber1'), '50');
    await settled(card);
    softTypeOn(field(card, 'chamber2'), '60');
    await settled(card);
    press(card, 'Undo');
    await settled(card);
    expect(typed(session, 'W-101', 'chamber1')).to.equal('50');
    expect(typed(session, 'W-101', 'chamber2')).to.equal(before);
    expect(card.row).to.equal('a-W-101');
  });

  it('takes a status back before the count that was typed before it', async () => {
    const { card, session } = await cardOf();
    softTypeOn(field(card, 'chamber1'), '37');
    press(card, 'Not sampled');
    await settled(card);
    press(card, 'Undo');
    await settled(card);
    expect(typed(session, 'W-101', 'status')).to.equal(undefined);
    expect(typed(session, 'W-101', 'chamber1')).to.equal('37');
  });

  it('stays at what cannot be read until its reason was seen, then goes on', async () => {
    const { card, session } = await cardOf();
    softTypeOn(field(card, 'nematodirus'), '12x');
    press(card, 'Next');
    await settled(card);
    expect(card.row).to.equal('a-W-101');
    expect(typed(session, 'W-101', 'nematodirus')).to.equal('12x');
    expect(textOf(card, '[data-column="nematodirus"] .fault')).to.contain('12x');
    press(card, 'Next');
    await settled(card);
    expect(card.row).to.equal('a-W-102');
  });

  it('goes on at the same animal and in the same order when it is shown anew', async () => {
    const { card, session } = await cardOf();
    press(card, 'In the yard');
    await card.show('a-G-013');
    await settled(card);
    const again = await underSession<SdCard>(session, html`<sd-card></sd-card>`);
    await settled(again);
    expect(again.row).to.equal('a-G-013');
    expect(textOf(again, 'h3')).to.equal('Signs');
  });

  it('says for the eye too that the last one was reached', async () => {
    const { card, session } = await cardOf();
    const line = presentAnimals(session.notebook, session.openDay ?? '');
    await card.show(line.at(-1)?.id ?? '');
    await settled(card);
    for (let i = 0; i < 40 && textOf(card, '.onward p') === ''; i += 1) {
      press(card, 'Next');
      await settled(card);
    }
    expect(textOf(card, '.onward p')).to.equal('That was the last one.');
    press(card, 'The one before');
    await settled(card);
    expect(card.renderRoot.querySelector('.onward p')).to.equal(null);
  });
});

describe('sd-card', () => {
  it('says what was undone, and goes to the animal it was about', async () => {
    const { card, session } = await cardOf();
    await card.show('a-W-101');
    await settled(card);
    press(card, 'Could not count');
    await settled(card);
    expect(typed(session, 'W-101', 'status')).to.equal('could not count');
    expect(card.row).to.equal('a-W-102');
    press(card, 'Undo');
    await settled(card);
    expect(typed(session, 'W-101', 'status')).to.equal(undefined);
    expect(card.row).to.equal('a-W-101');
    const status = () => textOf(card, '[role="status"]');
    await waitUntil(() => status().startsWith('Undone: '), status(), { timeout: 3000 });
  });

  it('begins its second line with the place where an animal has no name and no group', async () => {
    const { card, session } = await cardOf();
    const dates = Object.keys(session.notebook.groups['a-W-101'] ?? {});
    await session.dispatch({
      label: 'a bare tag',
      source: 'typed',
      sets: [
        { path: ['animals', 'a-W-101', 'name'], value: '' },
        ...dates.map((date) => ({ path: ['groups', 'a-W-101', date] as const, value: null })),
      ],
    });
    await card.show('a-W-101');
    await settled(card);
    expect(textOf(card, 'h2')).to.equal('W-101 cup 1 of 40');
  });

  it('shows the first cup of the bench, and what its counts come to', async () => {
    const { card } = await cardOf();
    expect(textOf(card, 'h2')).to.match(/^W-101 Bracken · ewes · cup 1 of 40$/);
    expect(textOf(card, '.answer')).to.match(/^50 epg/);
  });

  it('goes from chamber 1 to chamber 2 to the next cup by the keypad’s Next', async () => {
    const { card, session } = await cardOf();
    field(card, 'chamber1').focus();
    await sendKeys({ type: '12' });
    await sendKeys({ press: 'Enter' });
    await settled(card);
    expect(card.shadowRoot?.activeElement).to.equal(field(card, 'chamber2'));
    await sendKeys({ type: '15' });
    await sendKeys({ press: 'Enter' });
    await settled(card);
    expect(textOf(card, '.answer')).to.match(/^1,350 epg/);
    await sendKeys({ press: 'Enter' });
    await settled(card);
    expect(textOf(card, 'h2')).to.match(/^W-102/);
    expect([typed(session, 'W-101', 'chamber1'), typed(session, 'W-101', 'chamber2')]).to.eql([
      ...['12', '15'],
    ]);
  });

  it('keeps what a soft keyboard types, without any keydown', async () => {
    const { card, session } = await cardOf();
    softType(field(card, 'chamber1'), '7');
    await settled(card);
    expect(typed(session, 'W-101', 'chamber1')).to.equal('7');
  });

  it('keeps a slip as typed, with its reason below the field', async () => {
    const { card, session } = await cardOf();
    softType(field(card, 'chamber1'), '12?');
    await settled(card);
    expect(typed(session, 'W-101', 'chamber1')).to.equal('12?');
    expect(textOf(card, '[data-column="chamber1"] .fault')).to.contain('in doubt');
    expect(field(card, 'chamber1').getAttribute('aria-invalid')).to.equal('true');
  });

  it('marks a cup not sampled and goes on; one tap takes it back', async () => {
    const { card, session } = await cardOf();
    press(card, 'Not sampled');
    await settled(card);
    expect(typed(session, 'W-101', 'status')).to.equal('not sampled');
    expect(textOf(card, 'h2')).to.match(/^W-102/);
    press(card, 'The one before');
    await settled(card);
    expect(textOf(card, '.status')).to.contain('not sampled');
    press(card, 'Take it back');
    await settled(card);
    expect(typed(session, 'W-101', 'status')).to.equal(undefined);
  });

  it('writes too many into the chamber in hand', async () => {
    const { card, session } = await cardOf();
    field(card, 'chamber2').focus();
    press(card, 'Too many');
    await settled(card);
    expect(typed(session, 'W-101', 'chamber2')).to.equal('too many');
    expect(textOf(card, '.answer')).to.contain('too many eggs to count');
  });

  it('asks which lanes were counted of a grid with too many, and takes their count', async () => {
    const { card, session } = await cardOf();
    const lanes = () => card.renderRoot.querySelector('[data-column^="part"]');
    expect(lanes()).to.equal(null);
    field(card, 'chamber1').focus();
    press(card, 'Too many');
    await settled(card);
    press(card, '2 of 6 lanes');
    await settled(card);
    expect(typed(session, 'W-101', 'part1')).to.equal('2/6');
    const count = field(card, 'chamber1');
    expect(card.shadowRoot?.activeElement).to.equal(count);
    expect(count.value.slice(count.selectionStart ?? 0, count.selectionEnd ?? 0)).to.equal(
      'too many',
    );
    softType(count, '60');
    await settled(card);
    // 60 eggs in 2/6 of one grid and none in the other: 60 × 30 ÷ (2 × 0.15 × 4/3) = 4,500.
    expect(textOf(card, '.answer')).to.match(/^4,500 epg 1.33 of 2 chambers/);
    press(card, 'the whole grid');
    await settled(card);
    expect(typed(session, 'W-101', 'part1')).to.equal(undefined);
    expect(textOf(card, '.answer')).to.match(/^3,000 epg/);
    expect(lanes()).to.equal(null);
  });

  it('takes one chamber only as a count once its row is left', async () => {
    const { card } = await cardOf();
    softType(field(card, 'chamber2'), '');
    softType(field(card, 'chamber1'), '5');
    await settled(card);
    press(card, 'One chamber only');
    await settled(card);
    press(card, 'The one before');
    await settled(card);
    expect(textOf(card, '.answer')).to.match(/^500 epg 1 of 2 chambers/);
  });

  it('makes no edit of a field that was only gone through, also after the decimal mark changed', async () => {
    const { card, session } = await cardOf();
    await session.dispatch({
      label: 'a comma',
      source: 'typed',
      sets: [{ path: ['about', 'notebook', 'decimalMark'], value: ',' }],
    });
    const before = session.undoLabel;
    for (const key of ['weight', 'condition', 'chamber1']) {
      field(card, key).focus();
      field(card, key).blur();
    }
    await settled(card);
    expect(session.undoLabel).to.equal(before);
    expect(typed(session, 'W-101', 'weight')).to.equal('73.5');
    expect(card.renderRoot.querySelector('.fault')).to.equal(null);
  });

  it('keeps what was typed on the day it was typed for, when another day is opened meanwhile', async () => {
    const { card, session } = await cardOf();
    const [day, other] = [session.openDay ?? '', '2026-06-21'];
    const readAt = (at: string) => {
      const column = columnByKey(session.notebook, 'chamber1')?.id ?? '';
      return readingOf(session.notebook, at, 'a-W-101', column)?.text;
    };
    const before = readAt(other);
    const input = field(card, 'chamber1');
    input.focus();
    input.value = '77';
    input.dispatchEvent(new InputEvent('input', { bubbles: true, inputType: 'insertText' }));
    await session.open(other);
    await settled(card);
    expect(readAt(day)).to.equal('77');
    expect(field(card, 'chamber1').value).to.equal(before);
    field(card, 'chamber1').blur();
    press(card, 'Next');
    await settled(card);
    expect(readAt(other)).to.equal(before);
  });

  it('keeps what was typed in its field where another tab has taken the writing over', async () => {
    const session = await openSession();
    const giver = await fixture<SessionGiver>(
      html`<sd-session-giver .session=${session}><sd-card></sd-card></sd-session-giver>`,
    );
    const card = giver.querySelector('sd-card')!;
    const become = async (next: Session): Promise<void> => {
      giver.session = next;
      await next.open(session.openDay ?? '');
      await settled(card);
    };
    await card.show('a-W-101');
    await settled(card);
    field(card, 'chamber1').focus();
    field(card, 'chamber1').value = '44';
    field(card, 'chamber1').dispatchEvent(new InputEvent('input', { bubbles: true }));
    let refusals = 0;
    await become(sessionAgain(session, 'following', () => (refusals += 1)));
    field(card, 'chamber1').blur();
    await settled(card);
    expect(refusals).to.be.greaterThan(0);
    expect(field(card, 'chamber1').value).to.equal('44');
    // Once this tab writes again, it is kept when the field is left.
    const again = sessionAgain(session);
    await become(again);
    field(card, 'chamber1').focus();
    field(card, 'chamber1').blur();
    await settled(card);
    expect(typed(again, 'W-101', 'chamber1')).to.equal('44');
  });

  it('goes on by Enter from any field: through its own part, then to the next animal', async () => {
    const { card } = await cardOf();
    for (const key of ['note', 'weight']) {
      await card.show('a-W-101');
      await settled(card);
      field(card, key).focus();
      await sendKeys({ press: 'Enter' });
      await settled(card);
      expect(card.row, key).to.equal('a-W-102');
    }
  });

  it('says why One chamber only does nothing, until a count stands in one of them', async () => {
    const { card } = await cardOf();
    const remark = () => card.renderRoot.querySelector('[role="alert"]')?.textContent ?? '';
    press(card, 'One chamber only');
    await settled(card);
    expect(remark()).to.contain('More than one chamber');
    softType(field(card, 'chamber1'), '');
    softType(field(card, 'chamber2'), '');
    await settled(card);
    press(card, 'One chamber only');
    await settled(card);
    expect(card.row).to.equal('a-W-101');
    expect(remark()).to.contain('Type the count');
    softType(field(card, 'chamber1'), '4');
    await settled(card);
    expect(remark()).to.equal('');
    press(card, 'One chamber only');
    await settled(card);
    expect(card.row).to.equal('a-W-102');
  });

  it('says aloud what a count came to, and which animal comes next', async () => {
    const { card } = await cardOf();
    softType(field(card, 'chamber1'), '30');
    await settled(card);
    const status = () => textOf(card, '[role="status"]');
    expect(status()).to.match(/^W-101: 1,500 epg, over your criteria: /);
    await card.show('a-W-102');
    await waitUntil(() => status().startsWith('W-102, Sorrel, cup 2 of 40'), status(), {
      timeout: 3000,
    });
  });

  it('warns of a tag that differs only by zeros, case or spaces before it is added', async () => {
    const { card } = await cardOf();
    const find = card.renderRoot.querySelector('sd-find-animal');
    const input = find?.shadowRoot?.querySelector('input');
    if (!find || !input) throw new Error('no search');
    input.value = 'w-103';
    input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    await find.updateComplete;
    const said = find.shadowRoot?.querySelector('[role="status"]')?.textContent;
    expect(said).to.contain('"W-103" and "w-103" differ only by capital and small letters');
  });

  it('takes by Enter the tag that was typed, and of several that fit none that was not', async () => {
    const { card, session } = await cardOf();
    const set = { path: ['animals', 'a-G-017', 'tag'] as const, value: '13' };
    const number = {
      path: ['animals', 'a-G-018', 'electronic'] as const,
      value: '982000123456789',
    };
    await session.dispatch({ label: 'tag', source: 'typed', sets: [set, number] });
    await settled(card);
    const find = card.renderRoot.querySelector('sd-find-animal')!;
    const input = find.renderRoot.querySelector('input')!;
    const enter = async (text: string): Promise<string> => {
      softTypeOn(input, text);
      await find.updateComplete;
      input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
      await settled(card);
      return find.renderRoot.querySelector('[role="alert"]')?.textContent?.trim() ?? '';
    };
    expect(await enter('01')).to.match(/^\d+ animals fit: choose one/);
    expect(card.row).to.equal('a-W-101');
    await enter('13');
    expect(card.row).to.equal('a-G-017');
    await enter('982 000123456789');
    expect(card.row).to.equal('a-G-018');
  });

  it('scores eyelids with one tap, signs first in the yard', async () => {
    const { card, session } = await cardOf();
    press(card, 'In the yard');
    await settled(card);
    expect(textOf(card, 'h3')).to.equal('Signs');
    press(card, '4 pink-white');
    await settled(card);
    expect(typed(session, 'W-101', 'eyelid')).to.equal('4');
    expect(textOf(card, '.answer')).to.contain('pale eyelids (4)');
  });

  it('finds an animal by part of its tag; in the yard it comes right behind', async () => {
    const { card } = await cardOf();
    press(card, 'In the yard');
    await settled(card);
    const find = card.renderRoot.querySelector('sd-find-animal');
    const input = find?.renderRoot.querySelector('input');
    if (!find || !input) throw new Error('There is nothing to find animals with.');
    input.focus();
    await sendKeys({ type: '112' });
    await sendKeys({ press: 'Enter' });
    await settled(card);
    expect(textOf(card, 'h2')).to.match(/^W-112 .* 2\. of 40$/);
  });

  it('adds an animal that is not there without leaving the card', async () => {
    const { card, session } = await cardOf();
    const input = card.renderRoot
      .querySelector('sd-find-animal')
      ?.renderRoot.querySelector('input');
    input?.focus();
    await sendKeys({ type: 'NEW-7' });
    card.renderRoot
      .querySelector('sd-find-animal')
      ?.renderRoot.querySelector<HTMLElement>('li:last-child button')
      ?.click();
    await settled(card);
    expect(Object.keys(session.notebook.animals)).to.have.length(41);
    expect(textOf(card, 'h2')).to.match(/^NEW-7/);
  });

  it('keeps a draft when the card is taken away', async () => {
    const { card, session } = await cardOf();
    const input = field(card, 'chamber1');
    input.focus();
    input.value = '9';
    input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    card.remove();
    await settled(card);
    expect(typed(session, 'W-101', 'chamber1')).to.equal('9');
  });

  it('has no violation of the accessibility rules', async () => {
    const { card } = await cardOf();
    const { violations } = await axe.run(card);
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).to.eql([]);
  });
});
