// Settings that cannot be used are refused at the start, in a sentence.
import { describe, expect, it } from '@jest/globals';
import { SystemRandom } from '../../src/platform/clock.js';
import { readConfig } from '../../src/platform/config.js';

const read = (env: NodeJS.ProcessEnv) =>
  readConfig({ SECRET_KEY: 'a key of good length, for this test only', ...env }, new SystemRandom());

describe('settings', () => {
  it('have what stands in the README without any', () => {
    const { port, host, publicUrl, undoSeconds, signInTries, trustProxy } = read({});
    expect({ port, host, publicUrl }).toEqual({
      port: 4180,
      host: '127.0.0.1',
      publicUrl: 'http://localhost:4180',
    });
    expect({ undoSeconds, signInTries, trustProxy }).toEqual({
      undoSeconds: 60,
      signInTries: 10,
      trustProxy: false,
    });
    expect(read({}).rateLimitPerMinute).toBe(300);
    expect(read({}).formLimitPerMinute).toBe(20);
  });

  it('that are empty count as not set', () => {
    expect(read({ PORT: '', SMTP_URL: '' })).toMatchObject({ port: 4180, smtpUrl: undefined });
  });

  it('name a mail server only together with the address that letters come from', () => {
    expect(() => read({ SMTP_URL: 'smtp://mail.example' })).toThrow(/SMTP_URL needs MAIL_FROM/);
    const both = { SMTP_URL: 'smtp://mail.example', MAIL_FROM: 'studio@curlew.example' };
    expect(read(both)).toMatchObject({ smtpUrl: 'smtp://mail.example', mailFrom: 'studio@curlew.example' });
  });

  it('let pages be reached by http on this machine only, or where that was said', () => {
    expect(() => read({ PUBLIC_URL: 'http://curlew.example' })).toThrow(/must be https/);
    for (const local of ['http://localhost:1', 'http://127.0.0.1', 'http://[::1]:1'])
      expect(read({ PUBLIC_URL: local }).publicUrl).toBe(local);
    expect(read({ PUBLIC_URL: 'http://10.0.0.2/', INSECURE_HTTP: '1' }).publicUrl).toBe('http://10.0.0.2');
  });

  it('that cannot be used are named, all of them', () => {
    const wrong = () => read({ PORT: '70000', MAIL_FROM: 'nobody', SECRET_KEY: 'short' });
    for (const name of ['PORT', 'MAIL_FROM', 'SECRET_KEY']) expect(wrong).toThrow(name);
  });
});
