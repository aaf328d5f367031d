// How a route comes into the app: its description and its handler in one step, so that they cannot drift apart.
import type { createRoute, RouteConfig, RouteHandler } from '@hono/zod-openapi';
import type { App } from '../environment.ts';
import type { Environment } from '../request.ts';

type Route = ReturnType<typeof createRoute<string, Omit<RouteConfig, 'path'> & { path: string }>>;
type Asked<R extends RouteConfig> = Parameters<RouteHandler<R, Environment>>[0];

/**
 * Adds a route. Handlers answer with a Response: exact bytes, GeoJSON and pages are no values that a type could
 * be checked against; the tests hold every answer against its schema instead.
 */
export function addRoute<R extends Route>(
  app: App,
  route: R,
  handler: (context: Asked<R>) => Response | Promise<Response>,
): void {
  app.openapi(route, handler as unknown as RouteHandler<R, Environment>);
}
