// Whether somebody who asks for a file already has it (RFC 9110 section 13). Pure: headers in, an answer out.
import { Temporal } from 'temporal-polyfill';

/** A file's tag without quotes, and when it last changed; null where that is not known to the second. Few ask for that. */
export interface Version {
  etag: string;
  changedAt: () => Temporal.Instant | null;
}

/**
 * True where 304 is the answer to GET or HEAD. If-Modified-Since counts only without If-None-Match (13.1.3), and one
 * that is no HTTP date counts for nothing.
 */
export function hasAlready(
  headers: { 'if-none-match'?: string | undefined; 'if-modified-since'?: string | undefined },
  { etag, changedAt }: Version,
): boolean {
  const tags = headers['if-none-match'];
  if (tags !== undefined) return names(tags, etag);
  const since = httpDate(headers['if-modified-since'] ?? '');
  if (since === null) return false;
  const changed = changedAt();
  return changed !== null && wholeSeconds(changed) <= since;
}

/** RFC 9110 13.1.2: a list of tags or *, compared weakly. */
function names(header: string, etag: string): boolean {
  return header
    .split(',')
    .some((one) => one.trim() === '*' || one.trim().replace(/^W\//, '') === `"${etag}"`);
}

/** The date form of HTTP, in whole seconds: "Sun, 06 Nov 1994 08:49:37 GMT". */
export const httpDateOf = (at: Temporal.Instant) => new Date(wholeSeconds(at) * 1000).toUTCString();

const DATE_FORMS = [
  /^\w{3}, \d\d \w{3} \d{4} \d\d:\d\d:\d\d GMT$/,
  /^\w{6,9}, \d\d-\w{3}-\d\d \d\d:\d\d:\d\d GMT$/,
  /^\w{3} \w{3} [ \d]\d \d\d:\d\d:\d\d \d{4}$/,
];

/** Seconds since 1970 of one of the three forms that RFC 9110 5.6.7 has readers take; null for anything else. */
function httpDate(text: string): number | null {
  if (!DATE_FORMS.some((form) => form.test(text))) return null;
  const milliseconds = new Date(text.endsWith('GMT') ? text : `${text} GMT`).getTime();
  return Number.isNaN(milliseconds) ? null : milliseconds / 1000;
}

const wholeSeconds = (at: Temporal.Instant) => Math.floor(at.epochMilliseconds / 1000);

/**
 * When a file last changed, of all that changes it; null while that second is not over yet, when another change may
 * come that bears the same date (8.8.2.1 forbids a date in the future too).
 */
export function lastOf(changes: Temporal.Instant[], now: Temporal.Instant): Temporal.Instant | null {
  const last = Temporal.Instant.fromEpochMilliseconds(
    Math.max(...changes.map((one) => one.epochMilliseconds)),
  );
  return wholeSeconds(last) < wholeSeconds(now) ? last : null;
}
