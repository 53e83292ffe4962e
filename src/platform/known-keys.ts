// A key that a body of the API has no place for is told by its name, before anything is done: it is mostly one that
// is misspelt, and what it says would else be left out without a word. Forms carry more than their doors read.
import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { fieldProblems } from './input.js';
import { bodyOf, shapeOf, type Shape } from './openapi.js';
import { AppError } from './problems.js';

/** Of more keys that nobody knows no more is told. */
const TOLD = 20;

@Injectable()
export class KnownKeysGuard implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const body = bodyOf(context.getHandler());
    if (!body) return true;
    const sent = context.switchToHttp().getRequest<FastifyRequest>().body;
    const unknown = unknownKeys(sent, shapeOf(body)).slice(0, TOLD);
    if (unknown.length === 0) return true;
    const { error } = body.safeParse(sent);
    throw new AppError('bad_input', undefined, [
      ...unknown.map((path) => ({
        field: path.map(escaped).join('/'),
        message: 'There is no field of this name.',
      })),
      ...(error ? fieldProblems(error) : []), // what a misspelt key leaves out is told with it
    ]);
  }
}

/** Where in what was sent the keys stand that its shape has no place for. */
export function unknownKeys(sent: unknown, shape: Shape): string[][] {
  if (typeof sent !== 'object' || sent === null) return [];
  const either = shape.anyOf ?? shape.oneOf;
  if (either) {
    const found = either.filter((one) => mayBe(sent, one)).map((one) => unknownKeys(sent, one));
    return found.sort((a, b) => a.length - b.length)[0] ?? [];
  }
  const under = (key: string, value: unknown, inner: Shape) =>
    unknownKeys(value, inner).map((path) => [key, ...path]);
  if (Array.isArray(sent)) {
    const { items } = shape;
    return items ? sent.flatMap((one, at) => under(String(at), one, items)) : [];
  }
  const { properties, additionalProperties: more } = shape;
  if (!properties) return [];
  return Object.entries(sent).flatMap(([key, value]) => {
    const inner = Object.hasOwn(properties, key) ? properties[key] : typeof more === 'object' ? more : null;
    return inner ? under(key, value, inner) : [[key]];
  });
}

/** Whether one of several shapes can be meant: of the same kind, and with the word that tells it from the others. */
function mayBe(sent: object, shape: Shape): boolean {
  const kind = Array.isArray(sent) ? 'array' : 'object';
  if (shape.type !== undefined && ![shape.type].flat().includes(kind)) return false;
  const fields: Record<string, unknown> = { ...sent };
  return Object.entries(shape.properties ?? {}).every(
    ([key, inner]) => inner.const === undefined || inner.const === fields[key],
  );
}

/** As RFC 6901 writes a name in a pointer. */
const escaped = (key: string) => key.replaceAll('~', '~0').replaceAll('/', '~1');
