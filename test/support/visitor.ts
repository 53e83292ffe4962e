// Somebody at a browser without a screen: keeps cookies, and sends forms with the token of the page it looked at last.
// It asks the application directly, through no network.
import type { TestHouse } from './house.js';
import { PASSWORD, type TestStudio } from './studio.js';

export interface Answer {
  status: number;
  /** What came, as it came. */
  bytes: Buffer;
  html: string;
  /** Where a 303 leads; '' otherwise. */
  location: string;
  header(name: string): string;
}

type Fields = Record<string, string | string[]>;

export class Visitor {
  private readonly cookies = new Map<string, string>();
  private formToken = '';

  constructor(private readonly house: TestHouse) {}

  get(url: string, headers: Record<string, string> = {}): Promise<Answer> {
    return this.send({ method: 'GET', url, headers });
  }

  /** The status of looking at a page, as a person or as a program that only asks whether it is there. */
  async look(method: 'GET' | 'HEAD', url: string): Promise<number> {
    return (await this.send({ method, url, headers: {} })).status;
  }

  /** Sends a form as the page last looked at would; `_form` among the fields replaces its token. */
  post(url: string, fields: Fields = {}): Promise<Answer> {
    const body = new URLSearchParams();
    for (const [name, value] of Object.entries({ _form: this.formToken, ...fields }))
      for (const one of [value].flat()) body.append(name, one);
    const headers = { 'content-type': 'application/x-www-form-urlencoded', 'sec-fetch-site': 'same-origin' };
    return this.send({ method: 'POST', url, headers, payload: body.toString() });
  }

  /** Sends a form with files as a browser would: multipart, as RFC 7578 has it. */
  async postFiles(
    url: string,
    fields: Record<string, string>,
    files: Record<string, { name: string; bytes: Uint8Array }>,
  ): Promise<Answer> {
    const form = new FormData();
    for (const [name, value] of Object.entries({ _form: this.formToken, ...fields })) form.set(name, value);
    for (const [name, { name: called, bytes }] of Object.entries(files))
      form.set(name, new Blob([new Uint8Array(bytes)], { type: 'text/csv' }), called);
    const sent = new Response(form);
    const headers = {
      'content-type': sent.headers.get('content-type') ?? '',
      'sec-fetch-site': 'same-origin',
    };
    return this.send({ method: 'POST', url, headers, payload: Buffer.from(await sent.arrayBuffer()) });
  }

  /** Sends a form and looks at the page it leads to. */
  async postAndFollow(url: string, fields: Fields = {}): Promise<Answer> {
    const answer = await this.post(url, fields);
    if (answer.status !== 303) throw new Error(`${url} answered ${answer.status}, not 303:\n${answer.html}`);
    return this.get(answer.location);
  }

  private async send(request: {
    method: 'GET' | 'HEAD' | 'POST';
    url: string;
    headers: Record<string, string>;
    payload?: string | Buffer;
  }): Promise<Answer> {
    const cookie = [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
    const headers = { accept: 'text/html', ...(cookie ? { cookie } : {}), ...request.headers };
    const answer = await this.house.app.inject({ ...request, headers });
    for (const { name, value } of answer.cookies)
      if (value === '') this.cookies.delete(name);
      else this.cookies.set(name, value);
    this.formToken = /name="_form" value="([^"]+)"/.exec(answer.body)?.[1] ?? this.formToken;
    return {
      status: answer.statusCode,
      html: answer.body,
      bytes: answer.rawPayload,
      location: String(answer.headers.location ?? ''),
      header: (name) => String(answer.headers[name] ?? ''),
    };
  }
}

/** Somebody who has signed in with a password. */
export async function signedIn(
  house: TestHouse,
  studio: TestStudio,
  role: 'owner' | 'assistant',
): Promise<Visitor> {
  const visitor = new Visitor(house);
  await visitor.get(`/s/${studio.slug}/sign-in`);
  const answer = await visitor.post(`/s/${studio.slug}/sign-in`, {
    email: studio[role].email,
    password: PASSWORD,
  });
  if (answer.status !== 303) throw new Error(`Signing in answered ${answer.status}:\n${answer.html}`);
  return visitor;
}
