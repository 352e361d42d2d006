import type { RowId } from '../shared/ref.ts';
import { isFault } from '../shared/value.ts';
import { animalOf, columnByKey } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { say } from '../src/text/say.ts';
import { boundEpg } from './bound-epg.ts';
import { cellSource, openOutcome } from './cell-source.ts';
import { cellText, type CellSource } from './grid-cell-text.ts';

/** What a typed count came to, in one sentence: "K-019: 1,550 epg, over your criteria: …". */
export function cupSentence(session: Session, row: RowId): string {
  const { notebook, openDay } = session;
  const tag = animalOf(notebook, row)?.tag ?? row;
  const parts = openDay === null ? [] : epgWords(cellSource(session, openDay, row));
  const outcome = openOutcome(session, row);
  if (outcome?.kind === 'over')
    parts.push(say('over your criteria: {reasons}', { reasons: outcome.reasons.join(', ') }));
  else if (outcome?.kind === 'below') parts.push(say('below your criteria'));
  return `${tag}: ${parts.join(', ')}.`;
}

function epgWords(source: CellSource): string[] {
  const epg = columnByKey(source.notebook, 'epg');
  if (!epg) return [];
  const value = source.value(epg);
  if (isFault(value)) return [value.sentence.replace(/\.$/, '')];
  const cell = cellText(source, epg);
  if (cell.text === '–') return [cell.note ?? say('no epg yet')];
  const bound = boundEpg(source.notebook, source.day, source.row, source.valueOfKey);
  return [
    bound?.is === 'too many'
      ? say('too many eggs to count')
      : say('{figure} epg', { figure: cell.text }),
  ];
}
