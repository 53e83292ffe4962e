import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import fastify from 'fastify';
import { assetUrl, serveStatic, staticFiles } from '../../src/platform/html/static-files.js';

const fileNamed = (name: string) => {
  const file = staticFiles.find((one) => one.name === name);
  if (!file) throw new Error(`no ${name}`);
  return file;
};

describe('static files', () => {
  const app = fastify();
  serveStatic(app);
  afterAll(() => app.close());

  it('have addresses that change when a byte changes', () => {
    for (const { url, bytes } of staticFiles) {
      const hash = createHash('sha256').update(bytes).digest('hex').slice(0, 10);
      expect(url).toMatch(new RegExp(`^/static/[a-z-]+\\.${hash}\\.(css|js|svg)$`));
    }
    expect(assetUrl('app.css')).toBe(fileNamed('app.css').url);
    expect(() => assetUrl('none.css')).toThrow('There is no file none.css');
  });

  it.each(['app.css', 'app.js', 'favicon.svg', 'red.css', 'favicon-red.svg'])(
    'serves %s to be kept for a year, packed for those who can unpack',
    async (name) => {
      const { url, bytes } = fileNamed(name);
      const packed = await app.inject({ url, headers: { 'accept-encoding': 'br, gzip' } });
      expect(packed.headers['content-encoding']).toBe('gzip');
      expect(gunzipSync(packed.rawPayload).equals(bytes)).toBe(true);
      for (const accepts of ['identity', 'gzip;q=0', 'gzip; q=0.0, br']) {
        const plain = await app.inject({ url, headers: { 'accept-encoding': accepts } });
        expect(plain.headers).not.toHaveProperty('content-encoding');
        expect(plain.rawPayload.equals(bytes)).toBe(true);
        expect(plain.headers['cache-control']).toBe('public, max-age=31536000, immutable');
        expect(plain.headers.vary).toBe('accept-encoding');
      }
    },
  );

  it('serves nothing under an old hash', async () => {
    expect((await app.inject('/static/app.0123456789.css')).statusCode).toBe(404);
  });

  it('weigh little', () => {
    expect(fileNamed('app.css').packed.length).toBeLessThan(15_000);
    expect(fileNamed('app.js').packed.length).toBeLessThan(2_000);
  });

  it('fetch nothing from elsewhere', () => {
    for (const { name, bytes } of staticFiles) {
      const text = bytes.toString().replaceAll('http://www.w3.org/2000/svg', '');
      expect([name, text.match(/https?:|url\(|@import|@font-face|data:/g)]).toEqual([name, null]);
    }
  });

  it('lay only red and black on the darkroom screen', () => {
    const colours = ['red.css', 'favicon-red.svg'].flatMap(
      (name) =>
        fileNamed(name)
          .bytes.toString()
          .match(/#[0-9a-f]{3,8}\b/g) ?? [],
    );
    expect(new Set(colours)).toEqual(new Set(['#f00', '#000']));
  });
});
