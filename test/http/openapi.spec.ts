// The API's description of itself: complete, well formed (OpenAPI 3.1.0, https://spec.openapis.org/oas/v3.1.0),
// and true of what is really answered.
import { operations as described, shapeOf } from '../../src/platform/openapi.js';
import { callerAt } from '../support/caller.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { nameOf, routesOf } from '../support/routes.js';
import { foundTestStudio, requestBody, type TestStudio } from '../support/studio.js';
import { WHO_MAY } from '../support/who-may.js';

type Schema = Record<string, unknown>;

interface Parameter {
  name: string;
  in: string;
  required: boolean;
  schema: Schema;
}
interface Answer {
  description: string;
  content?: Record<string, { schema: Schema }>;
}
interface Operation {
  operationId: string;
  summary: string;
  security?: Record<string, string[]>[];
  parameters: Parameter[];
  requestBody?: { required: boolean; content: Record<string, { schema: Schema }> };
  responses: Record<string, Answer>;
}
interface Description {
  openapi: string;
  info: { title: string; version: string };
  servers: { url: string }[];
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, Schema>; securitySchemes: Record<string, Schema> };
}

let house: TestHouse;
let studio: TestStudio;
let description: Description;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  description = (await house.app.inject({ url: '/api/openapi.json' })).json();
});
afterAll(() => house.close());

const operations = () =>
  Object.entries(description.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );

/** Every object inside a value that has this key. */
function allWith(key: string, value: unknown): Record<string, unknown>[] {
  if (typeof value !== 'object' || value === null) return [];
  const own = Object.hasOwn(value, key) ? [value as Record<string, unknown>] : [];
  return [...own, ...Object.values(value).flatMap((inner) => allWith(key, inner))];
}

it('describes every route of the API, and no other', () => {
  const routes = routesOf(house).filter(({ path }) => path.startsWith('/api/'));
  const described = operations().map(({ path, method }) => `${method.toUpperCase()} ${path}`);
  expect(described.sort()).toEqual(routes.map((one) => nameOf(one).replace(/:(\w+)/g, '{$1}')).sort());
});

it('has the parts that OpenAPI 3.1 asks for', () => {
  expect(description.openapi).toMatch(/^3\.1\.\d+$/);
  expect(description.info.title).toMatch(/\S/);
  expect(description.info.version).toMatch(/\S/);
  expect(description.servers).toEqual([{ url: 'http://localhost:4180' }]);
  const names = operations().map(({ operation }) => operation.operationId);
  expect(new Set(names).size).toBe(names.length);
  for (const { path, method, operation } of operations()) {
    expect(path).toMatch(/^\/api\//);
    expect(['get', 'put', 'post', 'delete', 'patch']).toContain(method);
    expect(operation.summary).toMatch(/^[A-Z]/);
  }
});

it('names each parameter of a path once, and gives every one a place and a schema', () => {
  for (const { path, operation } of operations()) {
    const inPath = operation.parameters.filter((one) => one.in === 'path');
    expect(inPath.map((one) => one.name).sort()).toEqual(
      [...path.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name).sort(),
    );
    for (const one of inPath) expect(one.required).toBe(true);
    for (const one of operation.parameters) {
      expect(['path', 'query', 'header']).toContain(one.in);
      expect(typeof one.required).toBe('boolean');
      expect(typeof one.schema).toBe('object');
    }
    const names = operation.parameters.map((one) => `${one.in} ${one.name}`);
    expect(new Set(names).size).toBe(names.length);
  }
});

it('says what each operation answers, on success and otherwise', () => {
  for (const { path, method, operation } of operations()) {
    const statuses = Object.keys(operation.responses);
    expect([path, method, statuses.filter((one) => /^2\d\d$/.test(one)).length]).toEqual([path, method, 1]);
    for (const [status, answer] of Object.entries(operation.responses)) {
      expect(answer.description).toMatch(/\S/);
      expect([status, answer.content === undefined]).toEqual([status, status === '204']);
    }
    expect(operation.responses.default?.content).toEqual({
      'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
    });
    if (operation.requestBody) {
      expect(operation.requestBody.required).toBe(true);
      expect(Object.keys(operation.requestBody.content)).toEqual(['application/json']);
    }
  }
});

it('every reference leads somewhere, and every required property is described', () => {
  const references = allWith('$ref', description).map((one) => String(one.$ref));
  expect(references.length).toBeGreaterThan(10);
  for (const reference of references) {
    const steps = reference.replace(/^#\//, '').split('/');
    const found = steps.reduce<unknown>((at, step) => (at as Record<string, unknown>)[step], description);
    expect([reference, typeof found]).toEqual([reference, 'object']);
  }
  for (const schema of allWith('required', description)) {
    if (!Array.isArray(schema.required)) continue;
    expect(Object.keys(schema.properties ?? {})).toEqual(expect.arrayContaining(schema.required));
  }
  expect(allWith('$schema', description)).toEqual([]);
  expect(allWith('nullable', description)).toEqual([]); // of OpenAPI 3.0; gone in 3.1
  for (const { pattern } of allWith('pattern', description))
    if (typeof pattern === 'string') expect(() => new RegExp(pattern, 'u')).not.toThrow();
});

it('asks for no more of a body than its door does', () => {
  const asked = described().flatMap(({ operation: { handler, body } }) => {
    if (!body) return [];
    const lacking = new Set(body.safeParse({}).error?.issues.map(({ path }) => String(path[0])));
    const { required = [] } = shapeOf(body) as { required?: string[] };
    return required.filter((key) => !lacking.has(key)).map((key) => `${handler}: ${key}`);
  });
  expect(asked).toEqual([]);
});

it('asks for a bearer token where the door does, and nowhere else', () => {
  expect(description.components.securitySchemes).toEqual({ staff: { type: 'http', scheme: 'bearer' } });
  for (const { path, method, operation } of operations()) {
    const whose = WHO_MAY[`${method.toUpperCase()} ${path.replace(/\{(\w+)\}/g, ':$1')}`];
    expect([path, method, operation.security]).toEqual([
      path,
      method,
      ['staff', 'owner'].includes(whose ?? '') ? [{ staff: [] }] : undefined,
    ]);
  }
});

it('the answers are as it says', async () => {
  const s = `/api/v1/s/${studio.slug}`;
  const { secret } = await callerAt(house, studio, 'owner');
  const asked = await house.app.inject({
    method: 'POST',
    url: `${s}/requests`,
    headers: { 'idempotency-key': 'as it says' },
    payload: requestBody(house, studio),
  });
  const wrong = await house.app.inject({ method: 'POST', url: `${s}/requests`, payload: [] });
  const answers: [path: string, method: string, status: string, body: unknown][] = [
    ['/api/v1/s/{slug}/requests', 'post', '201', asked.json()],
    ['/api/v1/s/{slug}/requests', 'post', 'default', wrong.json()],
  ];
  for (const [path, url] of [
    ['/api/v1/s/{slug}/requests', `${s}/requests`],
    ['/api/v1/s/{slug}/openings', `${s}/openings?plates=2`],
    ['/api/v1/s/{slug}/place/{token}', `/api/v1${asked.json<{ page: string }>().page}`],
    ['/api/v1/places', '/api/v1/places?q=whitby'],
    ['/api/openapi.json', '/api/openapi.json'],
  ] as const) {
    const answer = await house.app.inject({ url, headers: { authorization: `Bearer ${secret}` } });
    answers.push([path, 'get', String(answer.statusCode), answer.json()]);
  }
  for (const [path, method, status, body] of answers) {
    const content = description.paths[path]?.[method]?.responses[status]?.content ?? {};
    const schema = Object.values(content)[0]?.schema;
    expect([path, status, schema && mistakes(body, schema)]).toEqual([path, status, []]);
  }
  const place = description.paths['/api/v1/s/{slug}/place/{token}']?.get?.responses['200']?.content;
  const schema = place?.['application/json']?.schema ?? {};
  expect(mistakes({ id: 7, more: true }, schema).length).toBeGreaterThan(3); // it does notice
});

/** Where a value does not fit a schema; knows the keywords that our schemas use for answers. */
function mistakes(value: unknown, schema: Schema, at = ''): string[] {
  if (typeof schema.$ref === 'string')
    return mistakes(value, description.components.schemas[schema.$ref.split('/').at(-1) ?? ''] ?? {}, at);
  const any = schema.anyOf as Schema[] | undefined;
  if (any) return any.some((one) => mistakes(value, one, at).length === 0) ? [] : [`${at}: none of anyOf`];
  const wrong: string[] = [];
  const kind = value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value;
  const kinds = schema.type === undefined ? [kind] : [schema.type].flat();
  if (!kinds.includes(kind) && !(kinds.includes('integer') && Number.isInteger(value)))
    return [`${at}: ${kind} in place of ${kinds.join(' or ')}`];
  if (Array.isArray(schema.enum) && !schema.enum.includes(value)) wrong.push(`${at}: not in the list`);
  if (typeof schema.pattern === 'string' && !new RegExp(schema.pattern).test(String(value)))
    wrong.push(`${at}: ${String(value)} is not of the pattern`);
  if (Array.isArray(value))
    wrong.push(
      ...value.flatMap((one, index) => mistakes(one, (schema.items ?? {}) as Schema, `${at}/${index}`)),
    );
  else if (typeof value === 'object' && value !== null) {
    const known = (schema.properties ?? {}) as Record<string, Schema>;
    for (const name of (schema.required ?? []) as string[])
      if (!Object.hasOwn(value, name)) wrong.push(`${at}/${name}: missing`);
    for (const [name, inner] of Object.entries(value))
      if (known[name]) wrong.push(...mistakes(inner, known[name], `${at}/${name}`));
      else if (schema.additionalProperties === false) wrong.push(`${at}/${name}: not described`);
  }
  return wrong;
}
