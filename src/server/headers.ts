// What browsers are told about every answer: run no script, load nothing from elsewhere, frame us nowhere.
import { createHash } from 'node:crypto';
import type { MiddlewareHandler } from 'hono';
import { secureHeaders } from 'hono/secure-headers';
import type { Environment } from './request.ts';

const policy = ({ style, script }: { style: string; script?: string }): string =>
  [
    "default-src 'none'",
    ...(script === undefined ? [] : [`script-src ${script}`]),
    `style-src ${style}`,
    "img-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

/** Unless a route says otherwise. */
const usual = {
  'Content-Security-Policy': policy({ style: "'self'" }),
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=()',
};

/** Headers of every answer; a page that needs another policy sets it itself. No CORS header is ever sent. */
export function protectiveHeaders(): MiddlewareHandler<Environment> {
  const others = secureHeaders({
    referrerPolicy: 'no-referrer',
    xFrameOptions: 'DENY',
    // The server speaks plain HTTP on this machine; a promise of TLS would lock people out of it.
    strictTransportSecurity: false,
  });
  return async (context, next) => {
    await others(context, next);
    for (const [name, value] of Object.entries(usual))
      if (!context.res.headers.has(name)) context.res.headers.set(name, value);
  };
}

/** The guide to trust: readable without a script; one of its own carries the pairing code on. */
export const guideHeaders = {
  'Content-Security-Policy': policy({ style: "'self'", script: "'self'" }),
};

/** The field page: its own files only, photos that it made itself, this server and nobody else. */
export const fieldHeaders = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "connect-src 'self'",
    "img-src 'self' blob: data:",
    "worker-src 'self'",
    "manifest-src 'self'",
    "form-action 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'Permissions-Policy': 'camera=(self), geolocation=(self), microphone=()',
};

/** The policy for a self-contained page: its own style sheet is allowed by its hash, and no other. */
export function policyFor(page: string): string {
  const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? '';
  const hash = createHash('sha256').update(style).digest('base64');
  return policy({ style: `'sha256-${hash}'` });
}
