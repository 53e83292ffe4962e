// Somebody at any door, by page or by API: with the cookies and the bearer token that signing in gave.
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { fieldsOf } from './page-forms.js';
import type { TestHouse } from './house.js';
import type { Route } from './routes.js';
import { PASSWORD, type TestStudio } from './studio.js';

/** A secret that no link has; and an id that no row has. */
export const NO_SECRET = 'A'.repeat(43);
export const NO_ID = '00000000-0000-4000-8000-000000000000';

export interface Caller {
  /** "plateday-1234abcd=..."; '' for somebody who is not signed in. */
  cookie: string;
  /** The session's secret, which is the API's bearer token as well. */
  secret: string;
  /** The cookie of forms, and a token that goes with it. */
  formCookie: string;
  formToken: string;
}

/** The name of a studio's session cookie on a loopback house. */
export const sessionCookie = (studio: TestStudio) => `plateday-${studio.id.slice(0, 8)}`;

export async function callerAt(
  house: TestHouse,
  studio: TestStudio,
  role: 'owner' | 'assistant' | 'nobody',
): Promise<Caller> {
  const page = await house.app.inject({ url: `/s/${studio.slug}/sign-in` });
  const form = page.cookies.find(({ name }) => name === 'plateday-form');
  const formToken = String(fieldsOf(page.body, `/s/${studio.slug}/sign-in`)._form);
  const formCookie = `plateday-form=${form?.value ?? ''}`;
  if (role === 'nobody') return { cookie: '', secret: '', formCookie, formToken };
  const secret = await house.app.get(AccountsService).signIn(studio.id, studio[role].email, PASSWORD);
  return { cookie: `${sessionCookie(studio)}=${secret}`, secret, formCookie, formToken };
}

export interface Called {
  status: number;
  body: string;
  headers: Record<string, unknown>;
}

/** Calls a route of a studio with nothing in its body but the form's token; `change` replaces headers, fields or a JSON body. */
export async function call(
  house: TestHouse,
  studio: TestStudio,
  { method, path }: Route,
  caller: Caller,
  change: { headers?: Record<string, string>; fields?: Record<string, string>; sent?: unknown } = {},
): Promise<Called> {
  const fill: Record<string, string> = {
    slug: studio.slug,
    token: NO_SECRET,
    file: `${NO_SECRET}.ics`,
    id: NO_ID,
    section: 'rhythm',
    form: 'password',
  };
  const url = path.replace(/:(\w+)/g, (_, name: string) => fill[name] ?? 'nothing');
  const api = path.startsWith('/api/');
  const sends = method !== 'GET' && method !== 'DELETE';
  const fields = new URLSearchParams({ _form: caller.formToken, ...change.fields });
  const answer = await house.app.inject({
    method,
    url,
    headers: {
      accept: api ? 'application/json' : 'text/html',
      cookie: [caller.cookie, caller.formCookie].filter((one) => one !== '').join('; '),
      ...(api && caller.secret !== '' ? { authorization: `Bearer ${caller.secret}` } : {}),
      ...(sends ? { 'content-type': api ? 'application/json' : 'application/x-www-form-urlencoded' } : {}),
      ...change.headers,
    },
    ...(sends ? { payload: api ? JSON.stringify(change.sent ?? {}) : fields.toString() } : {}),
  });
  return { status: answer.statusCode, body: answer.body, headers: answer.headers };
}
