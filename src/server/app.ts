// The app: who may ask, then the routes, then what is answered to everything else. Knows no port, so that it can
// be asked without one.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { OpenAPIHono } from '@hono/zod-openapi';
import type { MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { timeout } from 'hono/timeout';
import { refusedDefaults } from '../felling/index.ts';
import type { Desk } from '../record/index.ts';
import { type Access, admit } from './access/index.ts';
import type { Answered, App, Room } from './environment.ts';
import { guard } from './guard.ts';
import { protectiveHeaders } from './headers.ts';
import { keptPlans } from './plans.ts';
import { answerProblem, badParameter, type Fault, Problem, problemOf } from './problems.ts';
import { readAlong } from './reading.ts';
import type { Environment } from './request.ts';
import { addEmergencyCard } from './routes/emergency-card.ts';
import { addEvents } from './routes/events.ts';
import { addExchange } from './routes/exchange.ts';
import { addField } from './routes/field.ts';
import { addFigures } from './routes/figures.ts';
import { addLayers } from './routes/layers.ts';
import { addDocument } from './routes/openapi.ts';
import { addPages } from './routes/pages.ts';
import { addPairing } from './routes/pairing.ts';
import { addPlan } from './routes/plan.ts';
import { addPlanMap } from './routes/plan-map.ts';
import { addPlanPage } from './routes/plan-page.ts';
import { addRecord, largestBody } from './routes/record.ts';
import { addReports } from './routes/reports.ts';
import { addSealed } from './routes/sealed.ts';
import { addStand } from './routes/stand.ts';
import { addTrust, type TrustOptions } from './routes/trust.ts';
import { turns } from './turns.ts';

export type AppOptions = Readonly<{
  desk: Desk;
  /** Program and version, such as "gapledger 0.1.0"; printed on reports. */
  program: string;
  /** Called after something was recorded, so that this machine can remember how far the log is. */
  remembered?: () => void | Promise<void>;
  /** Paired devices; without them only programs on this machine may ask. */
  access?: Access;
  /** Names and addresses of this machine in the local net under which it answers too, without a port. */
  names?: () => ReadonlySet<string>;
  /** What phones are told about trusting this machine, once it is known. */
  trust?: () => TrustOptions | undefined;
  /** Where the built field page lies. */
  fieldFolder?: string;
  /** Milliseconds since 1970. */
  now: () => number;
  /** Told of every answer, and of errors that nobody foresaw. */
  logger?: (answered: Answered) => void;
}>;

/** No reading may take longer, milliseconds. */
const longestAnswer = 30_000;

/** Makes the app around a desk. Photos named by a path are not read: over HTTP that would be any file here. */
export function createApp(options: AppOptions): App {
  const room = roomOf(options);
  const { access, names, now } = options;
  const app: App = new OpenAPIHono<Environment>({
    defaultHook: (result, { req }) => {
      if (result.success) return;
      throw badParameter(...result.error.issues.flatMap((issue) => faultsOf(issue, req.query())));
    },
  });
  app.use(answeredTo(options));
  app.use(protectiveHeaders());
  app.use(guard(names));
  app.use(admit(access, now));
  app.use(impatient());
  app.use(bodyLimit({ maxSize: largestBody, onError: tooLarge }));
  addRecord(app, room);
  addEvents(app, room);
  addExchange(app, room);
  addSealed(app, room);
  addPairing(app, room);
  addStand(app, room);
  addFigures(app, room);
  addPlan(app, room);
  addPlanMap(app, room);
  addLayers(app, room);
  addReports(app, room);
  addEmergencyCard(app, room);
  addPages(app, room);
  addPlanPage(app, room);
  addTrust(app, options.trust ?? (() => undefined));
  addField(app, options.fieldFolder);
  addDocument(app, room);
  refuseOtherMethods(app);
  app.notFound((context) =>
    answerProblem(context, new Problem('not-found', 'The start page at / links to everything there is.')),
  );
  app.onError((error, context) => answerProblem(context, problemOf(error)));
  return app;
}

function roomOf({ desk, program, access, remembered, now, logger, fieldFolder }: AppOptions): Room {
  const { readFile: _, ...outside } = desk.outside;
  const recorded = async (): Promise<void> => {
    try {
      await remembered?.();
    } catch (error) {
      logger?.({ method: 'POST', path: '', status: 200, milliseconds: 0, error });
    }
  };
  return {
    desk: { ...desk, outside, refuses: async (event) => refusedDefaults(event) },
    program,
    access,
    reading: readAlong(desk.log),
    plans: keptPlans(now),
    inTurn: turns(),
    field: fieldFolder !== undefined && existsSync(join(fieldFolder, 'index.html')),
    recorded,
    now,
  };
}

function answeredTo({ logger, now }: AppOptions): MiddlewareHandler<Environment> {
  return async (context, next) => {
    const start = now();
    await next();
    const unforeseen = context.error !== undefined && problemOf(context.error).code === 'internal';
    logger?.({
      method: context.req.method,
      path: context.req.path,
      status: context.res.status,
      milliseconds: now() - start,
      ...(unforeseen ? { error: context.error } : {}),
    });
  };
}

/** Only readings are given up: what is being recorded gets an answer that tells whether it was. */
function impatient(): MiddlewareHandler<Environment> {
  const limited = timeout(longestAnswer);
  return (context, next) => (context.req.method === 'GET' ? limited(context, next) : next());
}

function tooLarge(): never {
  throw new Problem(
    'too-large',
    `A body holds at most ${largestBody} bytes; send the entries in several parts. Sending one twice changes nothing.`,
  );
}

type ZodIssue = Readonly<{
  code?: string;
  path: readonly PropertyKey[];
  message: string;
  keys?: readonly string[];
}>;

function faultsOf({ path, message, keys }: ZodIssue, query: Readonly<Record<string, string>>): Fault[] {
  const fault = (field: string, remedy: string) => ({ field, value: query[field] ?? '', remedy });
  if (keys === undefined) return [fault(path.join('.'), message)];
  return keys.map((field) => fault(field, 'there is no such parameter here; leave it out'));
}

/** Known addresses asked with a method that they do not have. */
function refuseOtherMethods(app: App): void {
  const methods = new Map<string, Set<string>>();
  for (const { path, method } of app.routes) {
    if (method === 'ALL') continue;
    const known = methods.get(path) ?? new Set();
    methods.set(path, known.add(method));
  }
  for (const [path, known] of methods) {
    if (known.has('GET')) known.add('HEAD');
    const allow = [...known].join(', ');
    app.all(path, ({ req }) => {
      throw new Problem(
        'method-not-allowed',
        `${path} is asked with ${allow}, not with ${req.method}.`,
        {},
        { Allow: allow },
      );
    });
  }
}
