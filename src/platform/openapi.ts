// The API describes itself: each handler says once what it takes and gives, with the very zod schemas
// that check it, and /api/openapi.json is made of that (OpenAPI 3.1). A test finds undocumented routes.
import 'reflect-metadata';
import { RequestMethod } from '@nestjs/common';
import { z } from 'zod';
import { PROBLEMS, type ProblemCode } from './problems.js';

export interface Operation {
  summary: string;
  query?: z.ZodObject;
  body?: z.ZodType;
  /** Bodies to begin from, by what they show. */
  examples?: Record<string, object>;
  /** Absent when the answer has no body. */
  answer?: z.ZodType;
  /** Of the answer; JSON unless it says otherwise. */
  media?: string;
  status?: number;
  /** Whether a bearer token of owner or assistant is needed. */
  staff?: boolean;
  /** Whether an Idempotency-Key header is needed, or honoured where it is sent. */
  keyed?: 'needed' | 'honoured';
  /** Its own; what the description itself brings about (no such studio, not signed in ...) is added. */
  problems?: ProblemCode[];
}

interface Described extends Operation {
  controller: object;
  handler: string;
}

const described: Described[] = [];

/** Marks a handler of the API with its description. */
export function Describe(operation: Operation): MethodDecorator {
  return (controller, handler, descriptor) => {
    described.push({ ...operation, controller: controller.constructor, handler: String(handler) });
    const { value } = descriptor as { value?: object };
    if (value && operation.body) Reflect.defineMetadata(BODY, operation.body, value);
  };
}

const BODY = 'plateday: body';

/** What a handler of the API takes as its body, as it is described. */
export const bodyOf = (handler: object): z.ZodType | undefined =>
  Reflect.getMetadata(BODY, handler) as z.ZodType | undefined;

/** What of a JSON Schema tells which keys an object may have. */
export interface Shape {
  type?: string | string[];
  const?: unknown;
  properties?: Record<string, Shape>;
  additionalProperties?: Shape | boolean;
  items?: Shape;
  anyOf?: Shape[];
  oneOf?: Shape[];
}

const shapes = new WeakMap<z.ZodType, Shape>();

/** The shape of what is sent for a schema; made once. */
export function shapeOf(schema: z.ZodType): Shape {
  const shape = shapes.get(schema) ?? (schemaOf(schema, 'input') as Shape);
  shapes.set(schema, shape);
  return shape;
}

const problemSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  code: z.enum(Object.keys(PROBLEMS) as [ProblemCode, ...ProblemCode[]]),
  instance: z.string(),
  errors: z.array(z.object({ pointer: z.string(), detail: z.string() })).optional(),
});

/** Every described operation with its method and path as Nest knows them. */
export function operations(): { method: string; path: string; operation: Described }[] {
  return described.map((operation) => {
    const base = String(Reflect.getMetadata('path', operation.controller)).replace(/^\/$/, '');
    const handler =
      (operation.controller as { prototype: Record<string, object> }).prototype[operation.handler] ?? {};
    const own = String(Reflect.getMetadata('path', handler)).replace(/^\/$/, '');
    const method = RequestMethod[Reflect.getMetadata('method', handler) as number] ?? 'GET';
    return { method: method.toLowerCase(), path: `/${[base, own].filter(Boolean).join('/')}`, operation };
  });
}

/** The OpenAPI document. */
export function openApi(base: string): object {
  const paths: Record<string, Record<string, object>> = {};
  for (const { method, path, operation } of operations()) {
    const template = path.replace(/:(\w+)/g, '{$1}');
    paths[template] = { ...paths[template], [method]: describe(operation, path, method) };
  }
  return {
    openapi: '3.1.0',
    info: { title: 'Plateday', version: '1', description: 'Bookings of a wet-plate portrait studio.' },
    servers: [{ url: base }],
    paths,
    components: {
      securitySchemes: { staff: { type: 'http', scheme: 'bearer' } },
      schemas: { Problem: schemaOf(problemSchema, 'output') },
    },
  };
}

function describe(operation: Described, path: string, method: string): object {
  const inPath = [...path.matchAll(/:(\w+)/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
  const query = Object.entries(operation.query?.shape ?? {}).map(([name, schema]) => ({
    name,
    in: 'query',
    required: !(schema as z.ZodType).safeParse(undefined).success,
    schema: schemaOf(schema as z.ZodType, 'input'),
  }));
  const key = {
    name: 'Idempotency-Key',
    in: 'header',
    required: operation.keyed === 'needed',
    schema: { type: 'string', minLength: 8, maxLength: 255 },
  };
  const status = operation.status ?? (method === 'post' ? 201 : 200);
  return {
    operationId: operation.handler,
    summary: operation.summary,
    ...(operation.staff ? { security: [{ staff: [] }] } : {}),
    parameters: [...inPath, ...query, ...(operation.keyed ? [key] : [])],
    ...(operation.body
      ? {
          requestBody: {
            required: true,
            content: {
              'application/json': {
                schema: schemaOf(operation.body, 'input'),
                ...(operation.examples ? { examples: examplesOf(operation.examples) } : {}),
              },
            },
          },
        }
      : {}),
    responses: {
      [status]: {
        description: 'Done',
        ...(operation.answer
          ? {
              content: {
                [operation.media ?? 'application/json']: { schema: schemaOf(operation.answer, 'output') },
              },
            }
          : {}),
      },
      default: {
        description: problemsOf(operation, path).join(', '),
        content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
      },
    },
  };
}

function problemsOf(operation: Described, path: string): ProblemCode[] {
  const when = (yes: boolean | undefined, ...codes: ProblemCode[]) => (yes === true ? codes : []);
  return [
    ...new Set([
      ...when(path.includes('/:slug'), 'unknown_studio'),
      ...when(operation.staff, 'sign_in_needed', 'not_allowed'),
      ...when(operation.body !== undefined, 'unreadable', 'too_large'),
      ...when(operation.body !== undefined || operation.query !== undefined, 'bad_input'),
      ...when(operation.keyed !== undefined, 'unreadable', 'same_key_other_request'),
      ...(operation.problems ?? []),
      ...when(true, 'too_many_requests', 'busy', 'broken'),
    ]),
  ];
}

/** As OpenAPI has them: a summary is the name of each. */
const examplesOf = (examples: Record<string, object>): object =>
  Object.fromEntries(
    Object.entries(examples).map(([summary, value], at) => [`example${at + 1}`, { summary, value }]),
  );

/** Dates and the like are strings on the wire, whatever they become inside; what may be left out is not asked for. */
function schemaOf(schema: z.ZodType, io: 'input' | 'output'): object {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, {
    io,
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => {
      const { shape } = zodSchema as Partial<z.ZodObject>;
      if (io === 'output' || !shape || !jsonSchema.required) return;
      const asked = jsonSchema.required.filter(
        (key) => !(shape[key] as z.ZodType).safeParse(undefined).success,
      );
      if (asked.length > 0) jsonSchema.required = asked;
      else delete jsonSchema.required;
    },
  });
  return rest;
}
