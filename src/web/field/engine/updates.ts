// Newer versions of the page: loaded beside the one that runs, switched to when the person says so. What is stored is
// never touched by it.
import type { Core } from './core.ts';

/** What the waiting service worker listens for; worker/ has the same word. */
const takeOver = 'take-over';
/** Milliseconds between two looks for a newer version. */
const seldom = 60 * 60_000;

/** Watches for a newer version; gives the way to switch to it. */
export function updatesIn({ outside, passing, changed }: Core): () => Promise<void> {
  const { serviceWorker, build, reload } = outside;
  if (serviceWorker === undefined || build === '') return async () => undefined;
  let waiting: ServiceWorker | null = null;
  let asked = false;
  const wait = (worker: ServiceWorker | null) => {
    // Without one that runs already this is the first installation, not an update.
    if (worker === null || serviceWorker.controller === null) return;
    waiting = worker;
    passing.updateWaiting = true;
    changed();
  };
  const watch = (registration: ServiceWorkerRegistration | undefined) => {
    if (registration === undefined) return;
    wait(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const { installing } = registration;
      installing?.addEventListener('statechange', () => {
        if (installing.state === 'installed') wait(installing);
      });
    });
    lookNowAndThen(outside, registration);
  };
  serviceWorker.addEventListener('controllerchange', () => {
    // Another window may have switched; this page goes on with what it has until it is loaded anew.
    if (asked) reload();
  });
  // Without a worker the page works as long as it is open; the screens say what a secure context gives.
  register(serviceWorker).then(watch, () => undefined);
  return async () => {
    asked = true;
    if (waiting === null) reload();
    else waiting.postMessage(takeOver);
  };
}

/** Some browsers refuse with a rejection, some by throwing, and some give nothing where a page may not have a worker. */
async function register(container: ServiceWorkerContainer): Promise<ServiceWorkerRegistration | undefined> {
  return container.register('./sw.js', { scope: './', updateViaCache: 'none' });
}

/** A page on the home screen may stay open for weeks: now and then a small file tells which build is the newest. */
function lookNowAndThen(
  { now, onWake, fetch, build }: Core['outside'],
  registration: ServiceWorkerRegistration,
): void {
  let looked = now();
  onWake(() => {
    if (now() - looked < seldom) return;
    looked = now();
    newestBuild(fetch)
      .then((newest) => (newest === undefined || newest === build ? undefined : registration.update()))
      .catch(() => undefined);
  });
}

async function newestBuild(fetch: Core['outside']['fetch']): Promise<string | undefined> {
  const response = await fetch('./version.json', { cache: 'no-store' });
  const { build } = (await response.json()) as { build?: unknown };
  return typeof build === 'string' ? build : undefined;
}
