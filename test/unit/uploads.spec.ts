// Forms with files: bounded in what is kept however much comes, and only for doors that ask for them.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { Readable } from 'node:stream';
import Fastify from 'fastify';
import { takeUploads, UPLOAD_MOST_BYTES, uploadedFile, uploadRefusal } from '../../src/platform/uploads.js';

const app = Fastify();
beforeAll(async () => {
  takeUploads(app, () => Object.assign(new Error('no'), { statusCode: 415 }));
  app.post('/takes', { config: { takesUploads: true } }, (request) => {
    const file = uploadedFile(request.body as Record<string, unknown>, 'file');
    return {
      refusal: uploadRefusal(request),
      file: file?.name ?? null,
      bytes: file?.bytes.length ?? 0,
      fields: Object.keys(request.body as object),
    };
  });
  app.post('/takes-none', () => ({}));
  await app.ready();
});
afterAll(() => app.close());

const TYPE = 'multipart/form-data; boundary=b';
/** RFC 7578, section 4.2: a part for each field. */
const form = (content: string) =>
  [
    '--b',
    'Content-Disposition: form-data; name="text"',
    '',
    'some',
    '--b',
    'Content-Disposition: form-data; name="file"; filename="a.csv"',
    'Content-Type: text/csv',
    '',
    content,
    '--b--',
    '',
  ].join('\r\n');
const send = (url: string, payload: string | Readable, headers: Record<string, string> = {}) =>
  app.inject({ method: 'POST', url, payload, headers: { 'content-type': TYPE, ...headers } });

test('a file comes with the other fields', async () => {
  expect((await send('/takes', form('x,y\r\n'))).json()).toEqual({
    refusal: null,
    file: 'a.csv',
    bytes: 5,
    fields: ['text', 'file'],
  });
});

test('no other door takes one', async () => {
  expect((await send('/takes-none', form('x'))).statusCode).toBe(415);
});

test('50 MB are refused, whether their length was said or not, and are not kept', async () => {
  expect((await send('/takes', form('x'.repeat(UPLOAD_MOST_BYTES)))).json()).toMatchObject({
    refusal: 'too large',
    bytes: 0,
  });
  const chunk = Buffer.alloc(64 * 1024, 'a');
  function* many() {
    for (let sent = 0; sent < 50 * 1024 * 1024; sent += chunk.length) yield chunk;
  }
  const before = process.memoryUsage().arrayBuffers;
  expect((await send('/takes', Readable.from(many()))).json()).toMatchObject({
    refusal: 'too large',
    fields: [],
  });
  expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20 * 1024 * 1024);
});

test('what is no such form is told', async () => {
  for (const payload of ['nonsense', form('x').slice(0, 60)])
    expect((await send('/takes', payload)).json()).toMatchObject({ refusal: 'unreadable', fields: [] });
});
