import type { WorkerMessage } from '../../shared/worker-messages.ts';
import { planAnswerer } from './answer-plan.ts';

/** The shell in which plans are tried out beside the page, which stays free for keys and paint. */
const receive = planAnswerer(
  (message) => postMessage(message),
  () => new Promise((done) => setTimeout(done)),
);
addEventListener('message', (event: MessageEvent<WorkerMessage>) => void receive(event.data));
