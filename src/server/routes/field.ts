// GET /field/…: the files of the field page, as they were built. They hold nothing of the logbook.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { serveStatic } from '@hono/node-server/serve-static';
import { compress } from 'hono/compress';
import type { App } from '../environment.ts';
import { fieldHeaders } from '../headers.ts';
import { Problem } from '../problems.ts';
import type { Environment } from '../request.ts';

/** Files whose name carries a hash of their content never change. */
const hashed = /^\/field\/assets\/.*-[\w-]{8,}\.\w+$/;

/** @param folder of the built page; undefined where there is none */
export function addField(app: App, folder: string | undefined): void {
  app.get('/field', (context) => context.redirect('/field/', 308));
  if (folder !== undefined) {
    app.get('/field/*', compress(), filesOf(folder));
  }
  app.get('/field/*', () => {
    const there = folder !== undefined && existsSync(join(folder, 'index.html'));
    throw new Problem(
      'not-found',
      there
        ? 'The field page has no such file. It is at /field/.'
        : 'The field page is not built here: "npm run build" makes it.',
    );
  });
}

function filesOf(folder: string) {
  let files: ReturnType<typeof serveStatic<Environment>> | undefined;
  return async (...[context, next]: Parameters<ReturnType<typeof serveStatic<Environment>>>) => {
    if (!existsSync(folder)) return next();
    files ??= serveStatic<Environment>({
      root: folder,
      rewriteRequestPath: (path) => path.slice('/field'.length),
    });
    const answer = await files(context, next);
    if (!(answer instanceof Response)) return answer;
    for (const [name, value] of Object.entries(fieldHeaders)) answer.headers.set(name, value);
    const forEver = hashed.test(context.req.path);
    answer.headers.set('Cache-Control', forEver ? 'public, max-age=31536000, immutable' : 'no-cache');
    return answer;
  };
}
