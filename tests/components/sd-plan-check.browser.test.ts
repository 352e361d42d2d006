import { expect } from '@open-wc/testing';
import { html } from 'lit';
import { PlanWorker, type PlanEnd } from '../../components/plan-worker.ts';
import type { SdPlanCheck } from '../../components/sd-plan-check.ts';
import '../../components/sd-plan-check.ts';
import { isFault } from '../../shared/value.ts';
import type { PlanAsked, PlanStand } from '../../shared/worker-messages.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addBlock } from '../../src/notebook/edit-records.ts';
import { blocksOf } from '../../src/notebook/read.ts';
import { tryPlan } from '../../src/simulation/try-plan.ts';
import type { Session } from '../../src/session/session.ts';
import { demo, openSession, shown, textOf, underSession } from './open-notebook.ts';
import { askedPlan } from './asked-plan.ts';

const plan = askedPlan;
const endless: PlanAsked = { ...plan, runs: 1_000_000 };

function ended(end: PlanEnd | { fault: string; sentence: string }): PlanEnd {
  if (isFault(end)) throw new Error(end.sentence);
  return end;
}

describe('PlanWorker, with the real worker', () => {
  let worker: PlanWorker;

  beforeEach(() => {
    worker = new PlanWorker();
  });
  afterEach(() => worker.close());

  it('gives the very lines that the pure function gives, twice, and tells of progress', async () => {
    const pure = [...tryPlan(plan)].at(-1);
    for (let turn = 0; turn < 2; turn++) {
      const stands: PlanStand[] = [];
      const end = ended(await worker.try(plan, (stand) => stands.push(stand)));
      expect(end).to.deep.equal({ is: 'done', stand: pure });
      expect(stands.length).to.be.greaterThan(4);
      expect(stands.map(({ done }) => done)).to.deep.equal(
        [...stands.map(({ done }) => done)].sort((a, b) => a - b),
      );
    }
  });

  it('stops when asked, and can be asked again', async () => {
    const end = ended(
      await worker.try(endless, (stand) => {
        if (stand.done > 1000) worker.stop();
      }),
    );
    expect(end.is).to.equal('stopped');
    expect(end.stand.done).to.be.within(1001, 100_000);
    expect(worker.isRunning).to.equal(false);
    expect(ended(await worker.try(plan, () => undefined)).is).to.equal('done');
  });

  it('a newer plan takes the place of the one under way', async () => {
    const former = worker.try(endless, () => undefined);
    const newer = ended(await worker.try(plan, () => undefined));
    expect(ended(await former).is).to.equal('stopped');
    expect(newer.is).to.equal('done');
    expect(newer.stand.rows).to.have.length(4);
  });

  it('the page paints on while a plan is under way', async () => {
    let frames = 0;
    let isOver = false;
    const count = (): void => {
      frames += 1;
      if (!isOver) requestAnimationFrame(count);
    };
    requestAnimationFrame(count);
    let reports = 0;
    await worker.try(endless, () => {
      reports += 1;
      if (reports > 5 && frames > 5) worker.stop();
    });
    isOver = true;
    expect(frames).to.be.greaterThan(5);
  });

  it('a plan that makes no check, and a worker that cannot start, are sentences', async () => {
    const refused = await worker.try({ ...plan, meanEpg: 0 }, () => undefined);
    expect(isFault(refused) && refused.sentence).to.match(/mean epg.*more than 0/);
    const lost = new PlanWorker(() => new Worker('/no-such.worker.ts', { type: 'module' }));
    const end = await lost.try(plan, () => undefined);
    expect(isFault(end) && end.sentence).to.match(/Reload the page/);
    lost.close();
  });
});

describe('<sd-plan-check>', () => {
  async function open(session?: Session) {
    const notebook = demo();
    const edit = addBlock(notebook, 'plan-1', 'plan a check', 'Plan a check');
    const opened =
      session ?? (await openSession(applyEdit(notebook, edit, [2, 0, 'bench']).notebook));
    const element = await underSession<SdPlanCheck>(
      opened,
      html`<sd-plan-check .blockId=${'plan-1'}></sd-plan-check>`,
    );
    const input = (field: string): HTMLInputElement => {
      const found = element.renderRoot.querySelector(`#${field}`);
      if (!(found instanceof HTMLInputElement)) throw new Error(`no field ${field}`);
      return found;
    };
    const type = async (field: string, text: string): Promise<void> => {
      input(field).value = text;
      input(field).dispatchEvent(new Event('change', { bubbles: true }));
      for (let turn = 0; turn < 5; turn++) await new Promise((done) => setTimeout(done));
      await element.updateComplete;
    };
    const press = (words: string, label?: string): void => {
      const buttons = [...element.renderRoot.querySelectorAll('button')];
      const found = buttons.find(
        (button) =>
          button.textContent?.trim() === words && (label ?? button.ariaLabel) === button.ariaLabel,
      );
      if (!found) throw new Error(`no button ${words}`);
      found.click();
    };
    const until = async (is: () => boolean, what: string): Promise<void> => {
      for (let frame = 0; frame < 1200; frame++) {
        if (is()) return;
        await new Promise((done) => requestAnimationFrame(done));
      }
      throw new Error(`never: ${what}`);
    };
    const answer = (): Element | null => element.renderRoot.querySelector('sd-plan-answer');
    const isWhole = (): boolean => answer()?.shadowRoot?.querySelector('.headline') != null;
    await shown(element, 'form');
    return { element, session: opened, input, type, press, until, answer, isWhole };
  }

  it("starts from the open day's own mean, k and factor, and says from how many", async () => {
    const { element, input, until } = await open();
    await until(() => /counted on this day/.test(textOf(element, '#mean-hint')), 'own mean');
    expect(Number(input('mean').value)).to.be.greaterThan(1);
    expect(Number(input('k').value)).to.be.greaterThan(0);
    // The demo counts two areas at a factor of 50: one area alone stands for 100.
    expect(input('factor').value).to.equal('100');
    expect(textOf(element, '#expected-hint')).to.contain("notebook's own limit");
    expect(input('expected').value).to.equal('99');
  });

  it('tries the plan out: progress, an answer in words, a drawing and tables, nothing axe finds', async () => {
    const { element, type, press, until, answer, isWhole } = await open();
    await type('runs', '300');
    press('Try it out');
    await shown(element, 'progress');
    await until(isWhole, 'the whole answer');
    const chart = await shown(answer() as Element, 'svg[role="img"], figure[role="img"]');
    expect(chart.getAttribute('aria-label')).to.match(/the right thing of both drugs/);
    const tables = [...(answer()?.shadowRoot?.querySelectorAll('table') ?? [])];
    expect(tables.map((table) => table.querySelectorAll('tbody tr').length)).to.deep.equal([
      12, 12,
    ]);
    expect(tables[0]?.textContent).to.match(/susceptible.*low resistant.*resistant.*inconclusive/s);
    await expect(element).to.be.accessible();
  });

  it('stops, keeping the complete lines; the same numbers give the same answer again', async () => {
    const { element, type, press, until, answer, isWhole } = await open();
    await type('animals', '8, 500');
    await type('areas', '1');
    await type('runs', '2000');
    press('Try it out');
    await until(() => answer() !== null, 'a first line');
    press('Stop');
    await until(() => /Stopped/.test(element.renderRoot.textContent ?? ''), 'that it stopped');
    const partial = answer()?.shadowRoot?.querySelector('tbody')?.textContent;
    expect(answer()?.shadowRoot?.querySelector('.headline')).to.equal(null);
    await type('animals', '8');
    press('Try it out again');
    await until(isWhole, 'the whole answer');
    expect(answer()?.shadowRoot?.querySelector('tbody')?.textContent).to.equal(partial);
  });

  it('keeps what is typed in the notebook, says when answers are for other numbers, and goes back', async () => {
    const { element, session, input, type, press, until, isWhole } = await open();
    const own = input('fails').value;
    await type('animals', '10');
    await type('areas', '1');
    await type('runs', '100');
    press('Try it out');
    await until(isWhole, 'the whole answer');
    expect(element.renderRoot.textContent).not.to.contain('for the numbers before');
    await type('fails', '70');
    const block = blocksOf(session.notebook).find(({ id }) => id === 'plan-1');
    expect(block?.choices?.['fails']).to.equal('70');
    expect(element.renderRoot.textContent).to.contain('for the numbers before');
    expect(input('fails').parentElement?.textContent).to.contain('Back');
    press('Back', `A drug that fails takes: back to ${own}`);
    await until(() => input('fails').value === own, 'the own figure');
    expect(session.undoLabel).to.contain('a drug that fails');
  });

  it('a wrong number is a sentence at its field; nothing is tried and nothing typed is lost', async () => {
    const { element, input, type } = await open();
    await type('animals', '10, 4000');
    expect(input('animals').value).to.equal('10, 4000');
    expect(input('animals').getAttribute('aria-invalid')).to.equal('true');
    expect(textOf(element, '#animals-hint')).to.match(/whole number from 2 to 500/);
    const go = element.renderRoot.querySelector<HTMLButtonElement>('button.main');
    expect(go?.disabled).to.equal(true);
    await expect(element).to.be.accessible();
  });

  it('says how many animals a mean takes, by the closed form', async () => {
    const { element, type } = await open();
    await type('mean', '1000');
    await type('k', '0.5');
    await type('factor', '100');
    await type('areas', '1');
    await type('animals', '10, 20, 40');
    await type('precision', '32');
    const row = [...element.renderRoot.querySelectorAll('tbody tr')].at(-1)?.textContent ?? '';
    // √((1/10 + 1/0.5)/n): 10 animals 46 %, 20 animals 32 %, 40 animals 23 %; (0.1 + 2)/0.32² = 20.5.
    expect(row.replace(/\s+/g, ' ').trim()).to.equal('1 area 10 21 ± 46 % ± 32 % ± 23 %');
  });

  it('works without a count: examples that say so, and typed numbers', async () => {
    const empty = demo();
    const bare = { ...empty, days: {}, readings: {} };
    const edit = addBlock(bare, 'plan-1', 'plan a check', 'Plan a check');
    const session = await openSession(applyEdit(bare, edit, [2, 0, 'bench']).notebook);
    const { element, type, press, until, isWhole } = await open(session);
    expect(textOf(element, '#mean-hint')).to.contain('an example: type your own');
    await type('mean', '900');
    await type('runs', '50');
    press('Try it out');
    await until(isWhole, 'the whole answer');
  });
});
