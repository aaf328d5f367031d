// The cache of one build. Its name holds the scope, for several pages may live on one host.

export type Build = Readonly<{ name: string; files: readonly string[] }>;

const prefix = 'gapledger';

export function cacheOf(scope: string, build: string): string {
  return `${prefix} ${scope} ${build}`;
}

/** Caches of other builds of this very page. */
export async function othersOf(name: string, scope: string): Promise<string[]> {
  const names = await caches.keys();
  return names.filter((other) => other !== name && other.startsWith(`${prefix} ${scope} `));
}

/**
 * Fetches every file of the build past the browser's own cache, all or nothing.
 * @throws TypeError when one is missing; the browser then tries again another time
 */
export async function storeBuild({ name, files }: Build, scope: string): Promise<void> {
  const cache = await caches.open(name);
  await cache.addAll(files.map((file) => new Request(new URL(file, scope), { cache: 'reload' })));
}
