import { begin } from './begin.ts';

await begin({
  page: document,
  drawer: () => localStorage,
  wanted: navigator.languages,
  load: () => import('./main.ts'),
});
