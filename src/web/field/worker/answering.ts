// What is answered out of the cache: the page and its files. Everything else goes to the network as if there were no
// worker: the logbook's API, and the small file that tells which build is the newest.
import type { Build } from './caching.ts';

const page = 'index.html';

/** The answer to a request; undefined leaves it to the browser. */
export function answer(
  request: Request,
  scope: string,
  { name, files }: Build,
): Promise<Response> | undefined {
  if (request.method !== 'GET' || !request.url.startsWith(scope)) return undefined;
  const { origin, pathname } = new URL(request.url);
  const file = `${origin}${pathname}`.slice(scope.length);
  if (request.mode === 'navigate' && (file === '' || file === page))
    return fromCache(name, page, scope, request);
  return files.includes(file) ? fromCache(name, file, scope, request) : undefined;
}

/** A cache that the browser has emptied is no reason to show nothing. */
async function fromCache(name: string, file: string, scope: string, request: Request): Promise<Response> {
  const cache = await caches.open(name);
  return (await cache.match(new URL(file, scope))) ?? fetch(request);
}
