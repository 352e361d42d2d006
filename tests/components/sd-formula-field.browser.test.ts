import { expect, waitUntil } from '@open-wc/testing';
import { resetMouse, sendKeys, sendMouse } from '@web/test-runner-commands';
import { html } from 'lit';
import { fault } from '../../shared/value.ts';
import type { FormulaChange, SdFormulaField } from '../../components/sd-formula-field.ts';
import '../../components/sd-formula-field.ts';
import { demo, openSession, underSession } from './open-notebook.ts';

async function field(place = 'column', check = () => null as ReturnType<typeof fault> | null) {
  const session = await openSession(demo(), { check, evaluate: () => 1350 });
  const changes: FormulaChange[] = [];
  const element = await underSession<SdFormulaField>(
    session,
    html`<sd-formula-field
      label="Formula of the column"
      place=${place}
      @sd-formula-change=${(event: CustomEvent<FormulaChange>) => changes.push(event.detail)}
    ></sd-formula-field>`,
  );
  const input = element.renderRoot.querySelector('input') as HTMLInputElement;
  const options = () => [...element.renderRoot.querySelectorAll<HTMLElement>('[role="option"]')];
  const text = (selector: string) =>
    element.renderRoot.querySelector(selector)?.textContent?.replace(/\s+/g, ' ').trim() ?? '';
  input.focus();
  return { element, input, options, text, changes };
}

describe('<sd-formula-field>', () => {
  it('offers names with their help while typing, and Enter puts the chosen one in', async () => {
    const { element, input, options, changes } = await field();
    await sendKeys({ type: 'EPG(eg' });
    await element.updateComplete;
    expect(input.getAttribute('aria-expanded')).to.equal('true');
    expect(options()[0]?.textContent).to.match(/eggs\s+.*Strongyle-type eggs seen/s);
    await sendKeys({ press: 'ArrowDown' });
    await element.updateComplete;
    const active = input.getAttribute('aria-activedescendant');
    expect(active).to.equal(options()[0]?.id);
    expect(options()[0]?.getAttribute('aria-selected')).to.equal('true');
    await sendKeys({ press: 'Enter' });
    await element.updateComplete;
    expect(input.value).to.equal('EPG(eggs');
    expect(input.selectionStart).to.equal(8);
    expect(input.getAttribute('aria-expanded')).to.equal('false');
    expect(changes.at(-1)).to.deep.equal({ value: 'EPG(eggs', fault: null });
  });

  it('shows which argument is being typed, with its unit', async () => {
    const { element, text } = await field();
    await sendKeys({ type: 'EPGLOW(eggs, ' });
    await element.updateComplete;
    expect(text('#hint code')).to.equal('EPGLOW(eggs, factor, [level])');
    expect(text('#hint b')).to.equal('factor');
    expect(text('#hint .unit')).to.equal('factor: epg per egg');
  });

  it('lets Enter and Escape through when no name is chosen', async () => {
    const { element } = await field();
    const keys: string[] = [];
    element.addEventListener('keydown', (event) => keys.push(event.key));
    await sendKeys({ type: 'ep' });
    await sendKeys({ press: 'Escape' });
    await sendKeys({ press: 'Escape' });
    await sendKeys({ press: 'Enter' });
    expect(keys).to.deep.equal(['e', 'p', 'Escape', 'Enter']);
  });

  it('says what is wrong and where once the person leaves', async () => {
    const wrong = fault('formula', 'Part arguments with a comma, not “;” (at character 6).');
    const { element, input, text, changes } = await field('column', () => wrong);
    await sendKeys({ type: 'EPG(1; 2)' });
    await element.updateComplete;
    expect(changes.at(-1)?.fault).to.equal(wrong);
    input.blur();
    await waitUntil(() => text('.outcome') !== '');
    expect(text('.outcome .fault')).to.equal(wrong.sentence);
    expect(text('mark')).to.equal(';');
    expect(input.getAttribute('aria-invalid')).to.equal('true');
    await expect(element).to.be.accessible();
  });

  it('lets a press below it end before it says what is wrong, so that the click is not lost', async () => {
    const wrong = fault('formula', 'Part arguments with a comma, not “;” (at character 6).');
    const { element, text } = await field('column', () => wrong);
    const below = document.createElement('button');
    below.textContent = 'Below';
    let clicks = 0;
    below.addEventListener('click', () => (clicks += 1));
    element.after(below);
    await sendKeys({ type: 'EPG(1; 2)' });
    await sendKeys({ press: 'Escape' });
    const at = below.getBoundingClientRect();
    const position: [number, number] = [Math.round(at.left + 8), Math.round(at.top + 4)];
    await sendMouse({ type: 'move', position });
    await sendMouse({ type: 'down' });
    expect(document.activeElement).to.equal(below);
    await new Promise((done) => setTimeout(done, 60));
    expect(below.getBoundingClientRect().top).to.equal(at.top);
    await sendMouse({ type: 'up' });
    expect(clicks).to.equal(1);
    await waitUntil(() => text('.outcome .fault') === wrong.sentence);
    await resetMouse();
    below.remove();
  });

  it('says what a figure gives once it stands', async () => {
    const { input, text } = await field('figure');
    await sendKeys({ type: 'HERDMEAN(herd.epg)' });
    input.blur();
    await waitUntil(() => text('.outcome') !== '');
    expect(text('.outcome')).to.equal('gives 1,350');
  });

  it('lays the arguments above the line, so that what it gives stays in sight while typing', async () => {
    const { element, input } = await field('figure');
    element.style.marginTop = '120px';
    await sendKeys({ type: 'HERDMEAN(herd.epg)' });
    await sendKeys({ press: 'ArrowLeft' });
    element.renderRoot.querySelector<HTMLElement>('.outcome')?.scrollIntoView();
    await waitUntil(() => element.renderRoot.querySelector('.outcome')?.textContent.trim() !== '');
    const hint = element.renderRoot.querySelector('.hint-panel');
    expect(hint?.matches(':popover-open')).to.equal(true);
    await waitUntil(() => {
      const bottom = hint?.getBoundingClientRect().bottom ?? Infinity;
      return bottom <= input.getBoundingClientRect().top;
    });
    const outcome = element.renderRoot.querySelector('.outcome > *')?.getBoundingClientRect();
    const [x, y] = [(outcome?.left ?? 0) + 4, ((outcome?.top ?? 0) + (outcome?.bottom ?? 0)) / 2];
    const seen = element.shadowRoot?.elementFromPoint(x, y);
    expect(seen?.closest('.outcome')).to.not.equal(null);
  });

  it('puts a name from elsewhere in at the caret', async () => {
    const { element, input } = await field();
    await sendKeys({ type: 'eggs * ' });
    element.insertName('factor');
    await element.updateComplete;
    await sendKeys({ type: ' + 1' });
    expect(input.value).to.equal('eggs * factor + 1');
  });

  it('is accessible with its list open', async () => {
    const { element } = await field();
    await sendKeys({ type: 'he' });
    await element.updateComplete;
    await expect(element).to.be.accessible();
  });
});
