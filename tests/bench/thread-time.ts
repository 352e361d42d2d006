import { readFileSync } from 'node:fs';

const statistics = `/proc/self/task/${process.pid}/schedstat`;

/**
 * Milliseconds that this thread has been at work, so that other programs on the machine do not count. Known on
 * Linux alone (the scheduler's own statistics); elsewhere the clock stands in.
 */
export function threadTime(): number {
  try {
    // Asked for its own use, the system brings the statistics up to this very moment.
    process.cpuUsage();
    return Number(readFileSync(statistics, 'utf8').split(' ')[0]) / 1e6;
  } catch {
    return performance.now();
  }
}
