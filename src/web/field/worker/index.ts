// The service worker of the field page: keeps one build of the page whole and answers with it, so that the page opens
// without a signal. It knows the page's own files and nothing of what is recorded; it never touches IndexedDB.
import { answer } from './answering.ts';
import { cacheOf, othersOf, storeBuild } from './caching.ts';

declare const self: ServiceWorkerGlobalScope;
/** Put in when the page is built: which build this is, and the addresses of its files from the scope on. */
declare const FIELD_BUILD: string;
declare const FIELD_FILES: readonly string[];

/** What the page says when the person wants the new version; the engine has the same word. */
const takeOver = 'take-over';
const build = { name: cacheOf(self.registration.scope, FIELD_BUILD), files: FIELD_FILES };

self.addEventListener('install', (event) => {
  // No skipWaiting: the page that is open goes on with the files that it began with.
  event.waitUntil(storeBuild(build, self.registration.scope));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    othersOf(build.name, self.registration.scope).then(async (others) => {
      for (const name of others) await caches.delete(name);
      await self.clients.claim();
    }),
  );
});

self.addEventListener('message', ({ data }) => {
  if (data === takeOver) void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const answered = answer(event.request, self.registration.scope, build);
  if (answered !== undefined) event.respondWith(answered);
});
