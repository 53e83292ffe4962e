// Forms with a file: read whole, up to a bound, and only for doors that ask for it. What is too large, or no form, is not
// kept: the door is told why, and shows its form again. Multipart is read by Node's own parser (RFC 7578).
import type { IncomingMessage } from 'node:http';
import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance, FastifyRequest } from 'fastify';

/** Of the whole form. */
export const UPLOAD_MOST_BYTES = 2 * 1024 * 1024;

export interface Uploaded {
  name: string;
  bytes: Uint8Array;
}

export type UploadRefusal = 'too large' | 'unreadable';

/** For a door that takes a form with files; it also says `ShowsFormAgain`, and asks `uploadRefusal` first. */
export const TakesUploads = () => RouteConfig({ takesUploads: true });

const refused = new WeakMap<FastifyRequest, UploadRefusal>();

/** Why nothing of what was sent was read; null when all was. */
export const uploadRefusal = (request: FastifyRequest): UploadRefusal | null => refused.get(request) ?? null;

/** A file of a form that was sent; null where none was chosen. */
export function uploadedFile(body: Record<string, unknown> | undefined, field: string): Uploaded | null {
  const sent = body?.[field] as Partial<Uploaded> | undefined;
  return sent?.bytes instanceof Uint8Array && sent.bytes.length > 0 ? (sent as Uploaded) : null;
}

/** @param otherwise what becomes of such a body at any other door: a body, or an error that refuses it */
export function takeUploads(
  fastify: Pick<FastifyInstance, 'addContentTypeParser'>,
  otherwise: (request: FastifyRequest) => object | Error,
): void {
  fastify.addContentTypeParser(
    'multipart/form-data',
    async (request: FastifyRequest, sent: IncomingMessage) => {
      const { takesUploads } = request.routeOptions.config as { takesUploads?: boolean };
      if (takesUploads !== true) {
        sent.resume();
        const body = otherwise(request);
        if (body instanceof Error) throw body;
        return body;
      }
      const bytes = await upTo(UPLOAD_MOST_BYTES, request, sent);
      const fields = bytes && (await fieldsOf(bytes, request.headers['content-type'] ?? ''));
      if (fields) return fields;
      refused.set(request, bytes ? 'unreadable' : 'too large');
      return {};
    },
  );
}

/** Null where there is more; what comes after that is thrown away as it comes. */
async function upTo(most: number, request: FastifyRequest, sent: IncomingMessage): Promise<Buffer | null> {
  if (Number(request.headers['content-length'] ?? 0) > most) {
    sent.resume();
    return null;
  }
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of sent as AsyncIterable<Buffer>) {
    length += part.length;
    if (length <= most) parts.push(part);
    else parts.length = 0;
  }
  return length <= most ? Buffer.concat(parts) : null;
}

/** Of several of one name the last counts. Null where it is no such form. */
async function fieldsOf(bytes: Buffer, type: string): Promise<Record<string, unknown> | null> {
  try {
    const form = await new Response(new Uint8Array(bytes), { headers: { 'content-type': type } }).formData();
    const fields: Record<string, unknown> = {};
    for (const [name, value] of form)
      fields[name] =
        typeof value === 'string'
          ? value
          : { name: value.name, bytes: new Uint8Array(await value.arrayBuffer()) };
    return fields;
  } catch {
    return null;
  }
}
