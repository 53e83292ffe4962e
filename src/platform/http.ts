// Small things every door needs: a page as the answer, "see other" after a form.
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { VNode } from 'preact';
import { renderDocument } from './html/shell.js';

export function page(reply: FastifyReply, node: VNode, status = 200): string {
  reply.status(status).header('content-type', 'text/html; charset=utf-8');
  return renderDocument(node);
}

/** After a form: the browser fetches the next page with GET, so that reload sends nothing twice. */
export function seeOther(reply: FastifyReply, path: string): string {
  reply.status(303).header('location', path);
  return '';
}

/** What the browser says of itself; '' for nothing. */
export const agentOf = (request: FastifyRequest): string => request.headers['user-agent'] ?? '';
