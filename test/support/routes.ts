// Every route the program answers, read from Fastify's own table, so that a new one cannot be forgotten.
import type { TestHouse } from './house.js';

export interface Route {
  method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** With its parameters: "/s/:slug/ask". */
  path: string;
}

/** All but HEAD, which stands beside each GET, and our static files. */
export function routesOf(house: TestHouse): Route[] {
  const tree = house.app.getHttpAdapter().getInstance().printRoutes({ commonPrefix: false });
  const above: string[] = [];
  const routes = tree.split('\n').flatMap((line) => {
    const found = /^((?:[│ ] {3})*)[├└]── (.*?)(?: \(([A-Z, ]+)\))?$/.exec(line);
    if (!found) return [];
    const [, indent = '', segment = '', methods = ''] = found;
    const depth = indent.length / 4;
    const path = `${above[depth - 1] ?? ''}${segment}`;
    above.splice(depth, above.length, path);
    return methods.split(', ').flatMap((method) => (method === '' ? [] : [{ method, path }]));
  });
  if (routes.length < 20) throw new Error(`The table of routes reads differently now:\n${tree}`);
  return routes.filter(({ method, path }) => method !== 'HEAD' && !path.startsWith('/static/')) as Route[];
}

/** "POST /s/:slug/ask" */
export const nameOf = ({ method, path }: Route): string => `${method} ${path}`;
