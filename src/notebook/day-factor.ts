import type { DayCopy, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { factorSum } from './factor-sum.ts';
import { dayOf, defaultsOf } from './read.ts';

/** How a day's cups are made up and counted; of no day or an unknown one, how the next one's will be. */
export function protocolOn(notebook: Notebook, day: DayId | null): Partial<DayCopy> {
  const own = day === null ? undefined : dayOf(notebook, day);
  return own?.date === undefined ? defaultsOf(notebook) : { ...defaultsOf(notebook), ...own };
}

/** The factor of a day's protocol, over all its areas unless their number is given. */
export function factorOf(notebook: Notebook, day: DayId | null, areas?: number): number | null {
  const { grams, fluidMl, fluidIs = 'added', areaMl, areas: all } = protocolOn(notebook, day);
  if (grams === undefined || fluidMl === undefined || areaMl === undefined) return null;
  const sum = factorSum({ grams, fluidMl, fluidIs, areaMl, areas: areas ?? all ?? 1 });
  return isFault(sum) ? null : sum.factor;
}
