import { ContextProvider } from '@lit/context';
import { expect, fixture } from '@open-wc/testing';
import { html } from 'lit';
import { OfflineCopy, lostHere } from '../../components/offline.ts';
import { sessionContext } from '../../components/session-context.ts';
import { servicesContext, type Notice, type Services } from '../../components/services.ts';
import type { SdUpdateOffer } from '../../components/sd-update-offer.ts';
import '../../components/sd-update-offer.ts';
import type { OfflineMessage } from '../../shared/worker-messages.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';
import { Clock } from '../../src/session/clock.ts';
import { Session } from '../../src/session/session.ts';
import { stillEngine } from '../session/still-engine.ts';
import { demo } from './open-notebook.ts';

/** A worker that answers as the real one does, with nothing kept behind it. */
class FakeContainer extends EventTarget {
  readonly asked: OfflineMessage['kind'][] = [];
  inUse = 'one';
  newest = 'one';
  readonly active = {
    postMessage: (message: OfflineMessage): void => {
      this.asked.push(message.kind);
      if (message.kind === 'which version') this.tell();
      if (message.kind === 'take newest') this.say({ kind: 'taken', version: this.newest });
    },
  };

  startMessages(): void {
    this.asked.splice(0);
  }

  async register(): Promise<unknown> {
    return { active: this.active };
  }

  say(data: OfflineMessage): void {
    this.dispatchEvent(new MessageEvent('message', { data }));
  }

  tell(): void {
    this.say({ kind: 'versions', inUse: this.inUse, newest: this.newest });
  }
}

async function offer(notices: readonly Notice[] = [], journal?: () => Promise<void>) {
  const container = new FakeContainer();
  const offline = new OfflineCopy(container as unknown as ServiceWorkerContainer, () => 0);
  await offline.start();
  const page = document.createElement('main');
  document.body.append(page);
  const services = {
    offline,
    notices: () => notices,
    subscribeNotices: () => () => undefined,
  } as unknown as Services;
  let ms = 1;
  const session = new Session(demo(), {
    engine: stillEngine(),
    clock: new Clock('bench', () => (ms += 1)),
    now: () => ms,
    ...(journal ? { journal: { append: journal, replace: journal } } : {}),
  });
  new ContextProvider(page, { context: servicesContext, initialValue: services });
  new ContextProvider(page, { context: sessionContext, initialValue: session });
  const field = document.createElement('input');
  field.setAttribute('aria-label', 'a count');
  const element = await fixture<SdUpdateOffer>(html`<sd-update-offer></sd-update-offer>`, {
    parentNode: page,
  });
  page.append(field);
  const text = (): string => element.renderRoot.textContent?.replace(/\s+/g, ' ').trim() ?? '';
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 3; turn++) await new Promise((done) => setTimeout(done));
    await element.updateComplete;
  };
  const ready = async (): Promise<void> => {
    container.newest = 'two';
    container.tell();
    await settle();
  };
  return { element, container, offline, session, field, text, settle, ready };
}

describe('<sd-update-offer>', () => {
  it('says nothing while the version in use is the newest', async () => {
    const { text, offline, container } = await offer();
    expect(text()).to.equal('');
    expect(offline.isReady).to.equal(true);
    expect(container.asked).to.deep.equal(['which version']);
  });

  it('offers a newer version, and takes it only when pressed', async () => {
    const { element, container, text, ready, settle } = await offer();
    let reloads = 0;
    element.reload = () => (reloads += 1);
    await ready();
    expect(text()).to.contain('A newer version of this page is ready');
    await expect(element).to.be.accessible();
    expect(container.asked).to.deep.equal(['which version']);
    element.renderRoot.querySelector<HTMLButtonElement>('button.main')?.click();
    await settle();
    expect(container.asked).to.deep.equal(['which version', 'take newest']);
    expect(reloads).to.equal(1);
  });

  it('is not there while something is being typed', async () => {
    const { field, text, ready, settle } = await offer();
    field.focus();
    await ready();
    expect(text()).to.equal('');
    field.blur();
    await settle();
    expect(text()).to.contain('A newer version');
    field.focus();
    await settle();
    expect(text()).to.equal('');
  });

  it('waits with reloading until what was typed is on disk', async () => {
    let kept: () => void = () => undefined;
    const { element, session, ready, settle } = await offer(
      [],
      () => new Promise((d) => (kept = d)),
    );
    let reloads = 0;
    element.reload = () => (reloads += 1);
    await ready();
    const sets = setsOf('about', 'notebook', { title: 'Another name' });
    await session.dispatch({ label: 'the name', source: 'typed', sets });
    element.renderRoot.querySelector<HTMLButtonElement>('button.main')?.click();
    await settle();
    expect(reloads).to.equal(0);
    kept();
    await settle();
    expect(reloads).to.equal(1);
  });

  it('does not offer to load anew what is in the page alone', async () => {
    const sentence = 'Nothing is kept on this device.';
    const { element, text, ready } = await offer([{ kind: 'memory only', sentence }]);
    await ready();
    expect(text()).to.contain('save the notebook to a file first');
    expect(element.renderRoot.querySelector('button.main')).to.equal(null);
  });
});

describe('lostHere(place)', () => {
  const container = {} as ServiceWorkerContainer;

  it('names what a plain http address lacks, and what a browser lacks that keeps no pages', () => {
    const location = { protocol: 'http:' };
    const plain = lostHere({ isSecureContext: false, location, navigator: {} });
    expect(plain).to.match(/plain http.*without the network.*save the notebook to a file/);
    const bare = lostHere({ isSecureContext: true, location, navigator: {} });
    expect(bare).to.match(/browser does not keep the page/);
    const whole = { isSecureContext: true, location, navigator: { serviceWorker: container } };
    expect(lostHere(whole)).to.equal(null);
  });
});
