// The one kind of POST that comes from no form of ours: a mail program that stops mails for its reader (RFC 8058). It has
// no cookie and follows no redirect; what it may do is in the secret of its address. Its body is read by nobody.
import { SetMetadata } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';

const ONE_CLICK = 'one click';
/** Addresses that a mail program may POST to. */
const PATH = /^\/s\/[^/?]+\/reminders\/[^/?]+$/;

/** For a door that acts on the secret in its address alone. */
export const OneClick = () => SetMetadata(ONE_CLICK, true);

export const isOneClick = (handler: object): boolean => Reflect.getMetadata(ONE_CLICK, handler) === true;

/** RFC 8058 3.2 has the body sent as multipart/form-data, which other doors take only for files: see platform/uploads.ts. */
export const oneClickBody = (request: FastifyRequest): object | Error =>
  PATH.test(request.url)
    ? {}
    : Object.assign(new Error('No door takes this kind of body.'), { statusCode: 415 });
