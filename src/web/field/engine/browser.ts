// The world outside of the engine as a browser gives it. The one file of the engine that reads globals.
import { v7 } from 'uuid';
import type { Channel, Outside } from './outside.ts';

/** What this browser has. Hosts of this machine are secure. */
export function browser(): Outside {
  const here = new URL(location.href);
  const thisMachine = ['localhost', '127.0.0.1', '[::1]'].includes(here.hostname);
  return {
    indexedDB,
    fetch: (address, request) => fetch(address, request),
    now: () => Date.now(),
    newId: () => v7(),
    chance: () => Math.random(),
    randomBytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
    // Without a secure context there is none, whatever the types say.
    subtle: isSecureContext ? crypto.subtle : undefined,
    offsetMinutes: (moment) => -new Date(moment).getTimezoneOffset(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    api: new URL('../api/', here).href,
    secure: isSecureContext,
    thisMachine,
    later: (milliseconds, act) => {
      const timer = setTimeout(act, milliseconds);
      return () => clearTimeout(timer);
    },
    onWake: (act) => {
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'visible') act();
      });
      addEventListener('online', act);
    },
    storage: (navigator as Partial<Navigator>).storage,
    locks: (navigator as Partial<Navigator>).locks,
    channel: typeof BroadcastChannel === 'undefined' ? undefined : channel,
    serviceWorker: (navigator as Partial<Navigator>).serviceWorker,
    build: document.querySelector<HTMLMetaElement>('meta[name="build"]')?.content ?? '',
    reload: () => location.reload(),
  };
}

function channel(heard: (message: unknown) => void): Channel {
  const broadcast = new BroadcastChannel('gapledger');
  broadcast.onmessage = ({ data }) => heard(data);
  return { tell: (message) => broadcast.postMessage(message), close: () => broadcast.close() };
}
