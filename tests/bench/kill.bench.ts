import type { TestProject } from 'vitest/node';
import servePage from '../flow/built-page.ts';
import { killRounds } from '../flow/kill-rounds.ts';
import type { Row } from './bench.ts';

export const name = 'Counts kept when the browser is killed while they are typed';

const rounds = 100;

export async function run(): Promise<Row[]> {
  let address = '';
  const take = { provide: (_key: string, given: string) => (address = given) };
  const close = await servePage(take as Partial<TestProject> as TestProject);
  try {
    const seed = Date.now() % 2 ** 31;
    const { claimed, beyond, lost, half } = await killRounds(address, rounds, seed);
    return [
      {
        what: `counts called saved and lost, of ${claimed}`,
        measured: String(lost.length),
        budget: '0',
        note: lost[0] ?? `${rounds} kills, seed ${seed}`,
      },
      {
        what: 'edits there by half',
        measured: String(half.length),
        budget: '0',
        note: half[0] ?? `${beyond} counts were on disk before the page said so`,
      },
    ];
  } finally {
    await close();
  }
}
