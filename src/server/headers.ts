// What browsers are told about every answer: run no script, load nothing from elsewhere, frame us nowhere.
import { createHash } from 'node:crypto';
import type { MiddlewareHandler } from 'hono';
import { secureHeaders } from 'hono/secure-headers';
import type { Environment } from './environment.ts';

const policy = (style: string): string =>
  [
    "default-src 'none'",
    `style-src ${style}`,
    "img-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

/** Headers of every answer; a page that needs another policy sets it itself. No CORS header is ever sent. */
export function protectiveHeaders(): MiddlewareHandler<Environment> {
  const others = secureHeaders({
    referrerPolicy: 'no-referrer',
    xFrameOptions: 'DENY',
    // The server speaks plain HTTP on this machine; a promise of TLS would lock people out of it.
    strictTransportSecurity: false,
    permissionsPolicy: { camera: [], geolocation: [], microphone: [] },
  });
  return async (context, next) => {
    await others(context, next);
    if (!context.res.headers.has('Content-Security-Policy'))
      context.res.headers.set('Content-Security-Policy', policy("'self'"));
  };
}

/** The policy for a self-contained page: its own style sheet is allowed by its hash, and no other. */
export function policyFor(page: string): string {
  const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? '';
  const hash = createHash('sha256').update(style).digest('base64');
  return policy(`'sha256-${hash}'`);
}
