import { ContextProvider } from '@lit/context';
import '../../components/sd-counts.ts';
import { sessionContext } from '../../components/session-context.ts';
import { adoptTheme } from '../../components/theme.ts';
import { isFault } from '../../shared/value.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addDay } from '../../src/notebook/edit-days.ts';
import { fromTemplate } from '../../src/notebook/from-template.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { ordersAtEnd, setsOf } from '../../src/notebook/record-sets.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };

/** The page the grid is measured in: `?animals=500&days=4`, counts on all days but the last. */
const asked = new URLSearchParams(location.search);
const animals = Number(asked.get('animals') ?? '500');
const days = Number(asked.get('days') ?? '4');
const stamp = [1, 0, 'bench'] as const;

function startNotebook() {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  const start = fromTemplate(template, { id: 'n-bench', title: 'Bench', stamp, bind: toStored });
  const dates = Array.from({ length: days }, (_, i) => `2026-0${4 + i}-03`);
  const withDays = dates.reduce((notebook, date) => {
    const added = addDay(notebook, date, '');
    return isFault(added) ? notebook : applyEdit(notebook, added.edit, stamp).notebook;
  }, start);
  const sets = ordersAtEnd([], animals).flatMap((order, i) => {
    const tag = `A-${String(i + 1).padStart(4, '0')}`;
    const counted = dates.slice(0, -1).flatMap((date, d) =>
      ['c-chamber1', 'c-chamber2'].map((column, c) => {
        const value = (i * 7 + d * 13 + c * 3) % 37;
        const reading = { kind: 'number', text: String(value), value };
        return { path: ['readings', date, tag, column] as const, value: reading };
      }),
    );
    return [...setsOf('animals', tag, { tag, species: 'sheep', class: 'lamb', order }), ...counted];
  });
  return applyEdit(withDays, { label: 'bench', source: 'template', sets }, stamp).notebook;
}

adoptTheme(document);
const now = (): number => Date.now();
const session = new Session(startNotebook(), {
  engine: createEngine(),
  clock: new Clock('bench', now),
  now,
});
await session.openNewest();
const page = document.createElement('main');
page.style.setProperty('height', '100vh');
document.body.append(page);
new ContextProvider(page, { context: sessionContext, initialValue: session });
const counts = document.createElement('sd-counts');
page.append(counts);
await counts.updateComplete;
const grid = counts.renderRoot.querySelector('sd-grid');
await grid?.updateComplete;
grid?.focus();

/** Longest stretch in which the page took no key, ms, while `work` and what follows it ran. */
async function blocking(work: () => unknown): Promise<number> {
  let longest = 0;
  const watch = new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) longest = Math.max(longest, entry.duration);
  });
  watch.observe({ type: 'longtask' });
  const from = performance.now();
  await work();
  const own = performance.now() - from;
  await new Promise((done) => setTimeout(done, 400));
  watch.disconnect();
  return longest === 0 ? Math.min(own, 50) : longest;
}

function paste(text: string): void {
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  grid?.editor.input.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
  );
}

/** Whether the figures of all other days have arrived. */
function isReady(): boolean {
  const past = grid?.renderRoot.querySelectorAll<HTMLElement>('.row .past') ?? [];
  return past.length > 0 && [...past].every((cell) => cell.innerText.trim() !== '');
}

// The same work each time, of the same kind as a count's (elements, style, layout) and about as long: how much
// longer it takes now and then is the machine's own unrest.
const fixedMs = 9;
const aside = document.createElement('div');
aside.style.cssText = 'position: fixed; top: 0; left: 0; visibility: hidden; contain: strict';
aside.style.width = aside.style.height = '600px';
document.body.append(aside);

/** Lays a bare table out and takes it away; gives its height, so that it has to be laid out. */
function layTable(rows: number): number {
  for (let row = 0; row < rows; row += 1) {
    const line = document.createElement('div');
    line.style.display = 'flex';
    for (let cell = 0; cell < 14; cell += 1) {
      const text = document.createElement('span');
      text.textContent = String(row * cell);
      line.append(text);
    }
    aside.append(line);
  }
  const height = aside.scrollHeight;
  aside.replaceChildren();
  return height;
}

const rowsLaid = ((): number => {
  layTable(100);
  const from = performance.now();
  for (let i = 0; i < 10; i += 1) layTable(20);
  return Math.max(1, Math.round((fixedMs / (performance.now() - from)) * 200));
})();
addEventListener('keydown', (event) => {
  if (event.key === 'F9') layTable(rowsLaid);
});

Object.assign(window, { bench: { session, grid, blocking, paste, isReady } });
