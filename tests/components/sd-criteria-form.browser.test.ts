import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdCriteriaForm } from '../../components/sd-criteria-form.ts';
import '../../components/sd-criteria-form.ts';
import { dayOf } from '../../src/notebook/read.ts';
import { READY_SETS } from '../../src/treating/ready-criteria.ts';
import type { Session } from '../../src/session/session.ts';
import { demo, openSession } from './open-notebook.ts';
import {
  allText,
  button,
  choose,
  deep,
  onPage,
  says,
  TODAY,
  until,
  withFacts,
} from './treating-page.ts';

describe('<sd-criteria-form>, its ready sets', () => {
  it('puts a set in place of the list as examples, and nothing holds until it is kept', async () => {
    const session = await openSession();
    const form = await onPage<SdCriteriaForm>(session, html`<sd-criteria-form></sd-criteria-form>`);
    const said: string[] = [];
    form.addEventListener('settings-said', (event) =>
      said.push((event as CustomEvent<{ sentence: string }>).detail.sentence),
    );
    const reasons = (): readonly string[] =>
      (dayOf(session.notebook, TODAY)?.criteria ?? []).map(({ reason }) => reason);
    const before = reasons();
    choose(deep<HTMLSelectElement>(form, '.ready'), 'goat-high');
    button(form, 'Start from a ready set').click();
    await says(form, 'eyelids 3');
    expect(said[0]).to.contain('6 reasons').and.to.contain('Nothing holds until you keep them.');
    expect(form.renderRoot.querySelectorAll('.chip.open').length).to.equal(6);
    expect(reasons()).to.deep.equal(before);
    await expect(form).to.be.accessible();
    button(form, 'Keep these as mine').click();
    await until(
      () => reasons().includes('eyelids 3'),
      () => reasons().join(),
    );
    const set = READY_SETS.find(({ id }) => id === 'goat-high');
    expect(reasons()).to.deep.equal(set?.criteria.map(({ reason }) => reason));
    expect(dayOf(session.notebook, TODAY)?.criteria?.[0]?.saidBy).to.contain(
      'set it with your vet',
    );
    // From the open day on: the days before keep their own.
    expect(
      dayOf(session.notebook, '2026-05-10')?.criteria?.map(({ reason }) => reason),
    ).to.deep.equal(before);
  });

  it('leaves out what the notebook has no column for, and says so', async () => {
    const session = await openSession(
      withFacts(demo(), [{ path: ['columns', 'c-dag', 'removed'], value: true }]),
    );
    const form = await onPage<SdCriteriaForm>(session, html`<sd-criteria-form></sd-criteria-form>`);
    const said: string[] = [];
    form.addEventListener('settings-said', (event) =>
      said.push((event as CustomEvent<{ sentence: string }>).detail.sentence),
    );
    choose(deep<HTMLSelectElement>(form, '.ready'), 'sheep-low');
    button(form, 'Start from a ready set').click();
    await until(
      () => said.length > 0,
      () => 'nothing said',
    );
    expect(said[0]).to.contain(
      'Left out, since this notebook has no such column: scouring, with eyelids 3.',
    );
  });
});

async function open(): Promise<{ session: Session; form: SdCriteriaForm }> {
  const session = await openSession();
  const form = await onPage<SdCriteriaForm>(session, html`<sd-criteria-form></sd-criteria-form>`);
  return { session, form };
}

describe('<sd-criteria-form>, day by day', () => {
  const OTHER = '2026-06-21';

  it('shows and keeps what was changed for a day on that day alone', async () => {
    const { session, form } = await open();
    button(form, 'Remove bottle jaw').click();
    button(form, 'Add a reason').click();
    await says(form, 'Reason, in words');
    button(form, 'Keep these as mine').click();
    await says(form, 'Give the reason in words');

    await session.open(OTHER);
    await says(form, 'bottle jaw');
    expect(allText(form)).to.not.contain('Not kept yet').and.to.not.contain('Give the reason');
    expect(form.renderRoot.querySelector('.edit')).to.equal(null);
    button(form, 'Keep these as mine').click();
    await until(
      () => dayOf(session.notebook, OTHER)?.criteria?.every((one) => one.confirmed) === true,
      () => JSON.stringify(dayOf(session.notebook, OTHER)?.criteria),
    );
    const kept = dayOf(session.notebook, OTHER)?.criteria?.map(({ reason }) => reason);
    expect(kept).to.include('bottle jaw').and.to.not.include('');

    await session.open(TODAY);
    await says(form, 'Give the reason in words');
    expect(allText(form)).to.contain('Not kept yet').and.to.not.contain('bottle jaw');
  });
});

describe('<sd-criteria-form>, where the focus goes', () => {
  const focused = (form: SdCriteriaForm): string => {
    const at = form.shadowRoot?.activeElement;
    return at?.getAttribute('aria-label') ?? at?.textContent?.trim() ?? 'nowhere';
  };
  const reasons = (form: SdCriteriaForm): readonly string[] =>
    [...form.renderRoot.querySelectorAll('.words b')].map((one) => one.textContent ?? '');
  const press = async (form: SdCriteriaForm, name: string): Promise<void> => {
    const pressed = button(form, name);
    pressed.focus();
    pressed.click();
    await form.updateComplete;
    // Once more, for what waits for the update too.
    await form.updateComplete;
  };
  const pressFocused = async (form: SdCriteriaForm): Promise<void> => press(form, focused(form));

  it('goes with a reason that is moved, so that pressing twice moves it twice', async () => {
    const { form } = await open();
    const [first = '', second = '', third = '', ...others] = reasons(form);
    await press(form, `Move ${first} down`);
    await pressFocused(form);
    expect(reasons(form)).to.deep.equal([second, third, first, ...others]);
    expect(focused(form)).to.equal(`Move ${first} down`);
    await press(form, `Move ${first} up`);
    await pressFocused(form);
    expect(reasons(form)).to.deep.equal([first, second, third, ...others]);
    // It cannot go further up.
    expect(focused(form)).to.equal(`Move ${first} down`);
    const last = others.at(-1) ?? '';
    await press(form, `Move ${others.at(-2) ?? ''} down`);
    expect(focused(form)).to.equal(`Move ${others.at(-2) ?? ''} up`);
    expect(reasons(form).at(-2)).to.equal(last);
  });

  it('goes from a reason taken off to the next, and from the last to where one is added', async () => {
    const { form } = await open();
    const [first = '', second = ''] = reasons(form);
    await press(form, `Remove ${first}`);
    expect(focused(form)).to.equal(`Change ${second}`);
    await press(form, `Remove ${reasons(form).at(-1) ?? ''}`);
    expect(focused(form)).to.equal('Add a reason');
  });
});
