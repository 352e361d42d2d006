import type { PersistenceAnswer } from '../src/storage/persistence.ts';
import type { Services } from './services.ts';
import { say } from '../src/text/say.ts';

/** What the browser answered when asked to keep what is here, in one sentence; '' before. */
export function promiseWords(answer: PersistenceAnswer): string {
  switch (answer) {
    case 'promised':
      return say('This browser has promised to keep your notebooks.');
    case 'refused':
      return say(
        'This browser may clear notebooks away when it runs out of room: save to a file now and then.',
      );
    case 'not offered':
      return say(
        'This browser does not say how long it keeps notebooks: save to a file now and then.',
      );
    case 'not asked':
      return '';
  }
}

/** What can be relied on here: that notebooks are kept, and that the page opens without the network. */
export function keepingWords({ promise, offline }: Services): string {
  const isReady = offline?.isReady === true;
  return [promise(), isReady ? say('This page now opens without the network too.') : '']
    .filter(Boolean)
    .join(' ');
}
