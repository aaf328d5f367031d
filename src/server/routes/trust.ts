// GET /trust/…: how a phone is made to trust this computer, and the certificate for it. For everybody in the net,
// without HTTPS: it is what leads there.
import type { Context } from 'hono';
import { text } from '../answers.ts';
import type { App } from '../environment.ts';
import { guideHeaders } from '../headers.ts';
import { icon } from '../page/style.ts';
import { type GuideFacts, overviewPage, stepsPage } from '../page/trust/guide.ts';
import { carryCode, guideStyle } from '../page/trust/style.ts';
import { Problem } from '../problems.ts';
import type { Environment } from '../request.ts';

/** What the guide tells; nothing that only the keeper may know. */
export type TrustOptions = Readonly<{
  /** Port that speaks TLS. */
  tlsPort: number;
  /** The authority of this machine; missing where the keeper brought a certificate along. */
  authority?: Readonly<{
    name: string;
    fingerprint: string;
    /** The day on which it ends, such as 2036-11-25. */
    ends: string;
    der: Uint8Array<ArrayBuffer>;
    /** For which names and nets it can vouch. */
    permits: readonly string[];
  }>;
}>;

/** @param trust gives what is told, once that is known; undefined where no other machine can reach this one */
export function addTrust(app: App, trust: () => TrustOptions | undefined): void {
  const answer = (
    context: Context<Environment>,
    mediaType: string,
    body: string | Uint8Array<ArrayBuffer>,
  ) => {
    context.header('Cache-Control', 'no-cache');
    for (const [name, value] of Object.entries(guideHeaders)) context.header(name, value);
    return text(context, mediaType, body);
  };
  const page = (context: Context<Environment>, body: string) =>
    answer(context, 'text/html; charset=utf-8', body);
  app.get('/trust', (context) => context.redirect('/trust/', 308));
  app.get('/trust/', (context) => page(context, overviewPage(factsFor(context, known(trust)))));
  app.get('/trust/guide.css', (context) => answer(context, 'text/css; charset=utf-8', guideStyle));
  app.get('/trust/code.js', (context) => answer(context, 'text/javascript; charset=utf-8', carryCode));
  app.get('/trust/icon.svg', (context) => answer(context, 'image/svg+xml', icon));
  app.get('/trust/gapledger.crt', (context) => {
    const { authority } = known(trust);
    if (authority === undefined)
      throw new Problem(
        'not-found',
        'This computer shows a certificate of its own; there is none to install.',
      );
    // The registered way to hand a certificate of an authority to a browser; one shown inline is offered for trust.
    return answer(context, 'application/x-x509-ca-cert', authority.der);
  });
  app.get('/trust/:guide', (context) => {
    const body = stepsPage(context.req.param('guide'), factsFor(context, known(trust)));
    if (body === undefined) throw new Problem('not-found', 'There is no such guide. /trust/ lists them.');
    return page(context, body);
  });
}

function known(trust: () => TrustOptions | undefined): TrustOptions {
  const options = trust();
  if (options !== undefined) return options;
  throw new Problem(
    'not-found',
    'Phones cannot reach this server. "gapledger serve --lan" lets them, and shows them the way here.',
  );
}

function factsFor({ req, env }: Context<Environment>, { tlsPort, authority }: TrustOptions): GuideFacts {
  const host = (req.header('host') ?? new URL(req.url).host).replace(/:\d+$/, '');
  return {
    fieldAddress: `https://${host}:${tlsPort}/field/`,
    secure: env?.incoming?.socket.encrypted === true,
    ...(authority === undefined ? {} : { authority }),
  };
}
