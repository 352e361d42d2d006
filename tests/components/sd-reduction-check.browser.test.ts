import { expect } from '@open-wc/testing';
import { html } from 'lit';
import type { SdReductionCheck } from '../../components/sd-reduction-check.ts';
import '../../components/sd-reduction-check.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { limitWordOn } from '../../src/notebook/limit-words.ts';
import { blocksOf, limitsOf } from '../../src/notebook/read.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import type { Session } from '../../src/session/session.ts';
import { limitByKey } from '../../src/treating/limit-by-key.ts';
import { productOf } from '../../src/treating/product.ts';
import { demo, openSession } from './open-notebook.ts';
import {
  allText,
  button,
  choose,
  deep,
  onPage,
  says,
  type,
  until,
  withFacts,
} from './treating-page.ts';

const BEFORE = '2026-06-07';
const AFTER = '2026-06-21';
const name = 'the drench in the blue can (invented)';

async function open(
  notebook: Notebook = demo(),
): Promise<{ session: Session; check: SdReductionCheck; id: string }> {
  const session = await openSession(notebook);
  const id = blocksOf(notebook).find(({ kind }) => kind === 'reduction check')?.id ?? '';
  const check = await onPage<SdReductionCheck>(
    session,
    html`<sd-reduction-check blockId=${id}></sd-reduction-check>`,
  );
  return { session, check, id };
}

const day = (check: SdReductionCheck, of: 'before' | 'after'): HTMLSelectElement =>
  deep<HTMLSelectElement>(check, `select[name="${of}"]`);

/** Every count of the second day set to the same eggs, for the animals that were treated. */
function afterAll(eggs: number): Notebook {
  const treated = ['G-017', 'G-018', 'L-001', 'L-006', 'L-012', 'L-013', 'L-016', 'L-017', 'L-018'];
  const text = String(eggs);
  return withFacts(
    demo(),
    treated.flatMap((tag) =>
      ['c-chamber1', 'c-chamber2'].map((column) => ({
        path: ['readings', AFTER, `a-${tag}`, column] as const,
        value: { kind: 'number', text, value: eggs },
      })),
    ),
  );
}

describe('<sd-reduction-check>', () => {
  it('starts from the newest treatment in the log and says what the pairs show', async () => {
    const { check } = await open();
    const text = await says(check, '9 pairs');
    expect([day(check, 'before').value, day(check, 'after').value]).to.deep.equal([BEFORE, AFTER]);
    // 203 eggs before and 6 after at one factor: 1 − 6/203 = 97.04 %, counted by hand from the demo's rows.
    expect(text).to.contain('The count went down by 97 %, 90 % limits 92 to 98.9 %.');
    expect(text).to.contain('203 eggs seen before, 6 after');
    expect(text).to.contain('class: low resistant');
    expect(text).to.contain('Was every animal dosed by its actual weight?');
    expect(text).to.contain('31 left out: not treated between the two counts: W-101');
    expect(text).to.contain('nematodirus, apart: 9 pairs, 8 eggs before and 0 after');
    expect(text).to.contain('A lower limit of 90 % needs 32 eggs before treatment');
    expect(text).to.contain(
      '99 % and 90 % are from memory of the 2023 guideline: check with your vet.',
    );
    await expect(check).to.be.accessible();
  });

  it('draws the limits over the grey zone, and says in words what the drawing shows', async () => {
    const { check } = await open();
    await says(check, '9 pairs');
    const zone = deep(check, 'svg.zone');
    expect(zone.getAttribute('role')).to.equal('img');
    expect(zone.getAttribute('aria-label')).to.match(
      /^The count went down by 97 %.* the lower limit reaches the threshold of 90 %, the upper limit is below what is expected, 99 %\.$/,
    );
    const at = (selector: string, of: string): number =>
      Number(zone.querySelector(selector)?.getAttribute(of));
    expect(at('.span', 'x1')).to.be.greaterThan(at('.grey', 'x'));
    expect(at('.span', 'x2')).to.be.lessThan(at('.grey', 'x') + at('.grey', 'width'));
    expect(at('.dot', 'cx')).to.be.within(at('.span', 'x1'), at('.span', 'x2'));
  });

  it('keeps the choices with the block, and refuses a second day before the first with a sentence', async () => {
    const { check, session, id } = await open();
    await says(check, '9 pairs');
    choose(day(check, 'after'), '2026-05-10');
    await says(
      check,
      'The second day (10 May 2026) is before the first (7 June 2026). Change them round.',
    );
    const block = blocksOf(session.notebook).find((one) => one.id === id);
    expect(block?.choices).to.include({ before: BEFORE, after: '2026-05-10' });
    day(check, 'after').focus();
    choose(day(check, 'after'), BEFORE);
    await says(check, 'Both samplings are of 7 June 2026.');
    choose(day(check, 'after'), AFTER);
    await says(check, 'went down by 97 %');
    // The field stays the same one, whatever stands below it, so the keyboard is still there.
    expect(check.shadowRoot?.activeElement).to.equal(day(check, 'after'));
    await session.undo();
    await says(check, 'Both samplings are of 7 June 2026.');
  });

  it('follows an edit of a count, and says "went up" where there are more eggs after', async () => {
    const { check } = await open(afterAll(40));
    // 9 × 80 = 720 eggs after against 203: 254.7 % more.
    const text = await says(check, 'The count went up by 254.7 %');
    expect(text).to.contain('(below 0 the count went up)');
    expect(text).to.contain('class: resistant');
    expect(text).to.contain('it may still kill most of the worms, or none');
  });

  it('gives a good drug its caution and asks no questions', async () => {
    const { check, session } = await open(afterAll(0));
    const text = await says(check, 'class: susceptible');
    expect(text).to.contain('went down by 100 %');
    expect(text).to.contain('so one resistant kind can hide among the others');
    expect(text).not.to.contain('Ask first, before you believe it');
    await session.dispatch({
      label: 'counts',
      source: 'typed',
      sets: ['a-L-016', 'a-L-018'].map((row) => ({
        path: ['readings', AFTER, row, 'c-chamber1'] as const,
        value: { kind: 'number', text: '30', value: 30 },
      })),
    });
    await says(check, 'went down by 70.4 %');
  });

  it('sets expected reduction and threshold with their reach, and refuses what cannot be', async () => {
    const { check, session } = await open();
    await says(check, '9 pairs');
    const form = deep(check, 'sd-check-limits');
    const input = (of: string): HTMLInputElement =>
      form.shadowRoot?.querySelector(`[name="${of}"]`) as HTMLInputElement;
    type(input('efficacy_threshold'), '99.5');
    button(check, 'Keep these as mine').click();
    await says(check, 'The lower threshold must be below the expected reduction.');
    expect(limitByKey(session.notebook, AFTER, 'efficacy_threshold')).to.equal(90);
    type(input('efficacy_threshold'), '95');
    type(input('saidBy'), 'A. Example');
    choose(form.shadowRoot?.querySelector('select') as HTMLSelectElement, 'only this day');
    button(check, 'Keep these as mine').click();
    await says(check, 'a threshold of 95 %');
    expect(limitByKey(session.notebook, AFTER, 'efficacy_threshold')).to.equal(95);
    expect(limitByKey(session.notebook, BEFORE, 'efficacy_threshold')).to.equal(90);
    const limit = limitsOf(session.notebook).find(({ key }) => key === 'efficacy_threshold');
    if (!limit) throw new Error('no threshold');
    const said = (day: string) => limitWordOn(session.notebook, day, limit);
    expect(said(AFTER)).to.deep.equal({ confirmed: true, saidBy: 'A. Example' });
    expect(said(BEFORE).confirmed).to.equal(false);
    await says(check, 'class: resistant');
  });

  it('holds the days between the samples against a window that can be set', async () => {
    const { check, session } = await open();
    await says(check, 'The second sample was taken 14 days after treatment, against 14 days');
    const form = deep(check, 'sd-check-limits');
    const input = (of: string): HTMLInputElement =>
      form.shadowRoot?.querySelector(`[name="${of}"]`) as HTMLInputElement;
    type(input('from'), '8');
    type(input('to'), '3');
    button(check, `Keep the days of ${name}`).click();
    await says(check, 'The last day for the second sample is before the first.');
    type(input('to'), '10');
    button(check, `Keep the days of ${name}`).click();
    await says(check, 'against 8 to 10 days (as you set it on the product): late');
    expect(productOf(session.notebook, 'p-demo')).to.include({
      sampleFromDays: 8,
      sampleToDays: 10,
    });
  });

  it('gives no verdict under its conditions, which can be set', async () => {
    const { check } = await open();
    await says(check, '9 pairs');
    const form = deep(check, 'sd-check-limits');
    const fewest = form.shadowRoot?.querySelector('[name="fewest"]') as HTMLInputElement;
    type(fewest, '1');
    button(check, 'Keep the conditions').click();
    await says(check, 'The fewest animals with eggs is a whole number from 2.');
    type(fewest, '10');
    button(check, 'Keep the conditions').click();
    await says(check, 'No verdict: 9 animals had eggs before treatment, and it takes 10.');
  });

  it('compares several products side by side, and names who got another one', async () => {
    const two = withFacts(demo(), [
      ...setsOf('products', 'p-2', { name: 'green can (made up)', order: 'a1' }),
      ...['L-001', 'L-006', 'L-012'].flatMap((tag) =>
        setsOf('treatments', `t-${tag}`, { product: 'p-2' }),
      ),
    ]);
    const { check } = await open(two);
    const text = await says(check, '6 pairs');
    expect(text).to.contain('green can (made up)');
    expect(text).to.contain(
      `treated with green can (made up), not with ${name}: L-001, L-006 and L-012`,
    );
    expect(text).to.contain('No verdict: 3 animals had eggs before treatment, and it takes 6.');
    expect(check.renderRoot.querySelectorAll('.answer').length).to.equal(2);
    await expect(check).to.be.accessible();
  });

  it('checks against an untreated control group, and refuses an animal in both', async () => {
    const { check } = await open();
    await says(check, '9 pairs');
    button(check, 'Take both from the log').click();
    const text = await says(check, 'by the rule of 1992:');
    expect(text).to.contain('9 treated against 31 untreated');
    const [treated, control] = [...check.renderRoot.querySelectorAll('textarea')];
    expect(treated?.value).to.contain('L-006');
    expect(control?.value).to.contain('W-101');
    if (control) type(control, 'W-101, L-006');
    await says(check, 'L-006 is in the treated and in the control group. Take it out of one.');
    if (control) type(control, 'W-101, X-1');
    await says(check, '1 tag is not in this notebook: X-1.');
    await expect(check).to.be.accessible();
  });

  it('has the words for the vet ready to be copied', async () => {
    const { check } = await open();
    await says(check, 'For the vet');
    const copied: string[] = [];
    const { clipboard } = navigator;
    const write = clipboard.writeText.bind(clipboard);
    clipboard.writeText = (text: string) => {
      copied.push(text);
      return Promise.resolve();
    };
    const said: string[] = [];
    check.addEventListener('page-message', (event) =>
      said.push((event as CustomEvent<{ sentence: string }>).detail.sentence),
    );
    button(check, 'Copy the words for the vet').click();
    await until(
      () => said.length > 0,
      () => 'nothing said',
    );
    clipboard.writeText = write;
    expect(said).to.deep.equal(['The words for the vet are copied.']);
    expect(copied[0]).to.equal(
      `9 animals treated once with ${name} and counted on 7 June 2026 and 21 June 2026, 14 days after treatment; 31 left out. ` +
        '203 eggs counted before and 6 after (mean 1128 and 33 epg). The count went down by 97 %; 90 % limits 92 to 98.9 %. ' +
        'Held against an expected reduction of 99 % and a threshold of 90 %: It works less well than it should (class: low resistant).',
    );
  });

  it('asks for two days while the log has no treatment between any', async () => {
    const none = withFacts(
      demo(),
      Object.keys(demo().treatments).map((id) => ({
        path: ['treatments', id, 'removed'] as const,
        value: true,
      })),
    );
    const { check } = await open(none);
    expect(allText(check)).to.contain('Choose two sampling days of this notebook.');
    choose(day(check, 'before'), BEFORE);
    choose(day(check, 'after'), AFTER);
    await says(check, 'Choose the product that was given between the two days.');
  });
});
