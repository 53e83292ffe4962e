// Pictures to scan, read back by a decoder that shares no code with what draws them.
import jsQR from 'jsqr';
import { render } from 'preact-render-to-string';
import { clientOf } from '../../src/calendar/clients.calc.js';
import { QrCode } from '../../src/platform/html/kit/qr-code.js';

const SCALE = 3;

/** Paints the SVG's one path of bars, as a screen would, at three pixels a module. */
function painted(svg: string): { pixels: Uint8ClampedArray; side: number } {
  const side = Number(/viewBox="0 0 (\d+) /.exec(svg)?.[1]) * SCALE;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const [, x, y, long] of svg.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
    for (let dy = 0; dy < SCALE; dy++)
      for (let dx = 0; dx < Number(long) * SCALE; dx++) {
        const at = ((Number(y) * SCALE + dy) * side + Number(x) * SCALE + dx) * 4;
        pixels.fill(0, at, at + 3);
      }
  return { pixels, side };
}

const read = (text: string) => {
  const { pixels, side } = painted(render(<QrCode text={text} label="An address" />));
  return jsQR.default(pixels, side, side)?.data;
};

describe('an address as a picture', () => {
  it.each([
    `webcal://localhost:4180/s/kittiwake-yard/calendar/${'aZ0-_'.repeat(8)}abc.ics`,
    `webcals://studio.example/${'long-'.repeat(40)}.ics`,
    'https://studio.example/s/skúr/calendar/手.ics',
  ])('is read back as it was: %s', (text) => {
    expect(read(text)).toBe(text);
  });

  it('is not read back as another', () => {
    expect(read('webcal://a.example/1.ics')).not.toBe('webcal://a.example/2.ics');
  });
});

describe('what came for a feed', () => {
  it.each([
    ['iOS/17.4 (21E219) dataaccessd/1.0', 'phone'],
    ['ICSx5/2.2.4 (Android/14)', 'phone'],
    ['macOS/14.4 (23E214) CalendarAgent/1011', 'computer'],
    ['Mozilla/5.0 (X11; Linux x86_64; rv:115.0) Gecko/20100101 Thunderbird/115.9', 'computer'],
    ['Google-Calendar-Importer', 'service'],
    ['Mozilla/5.0 (compatible; Some-Fetcher/1.0)', 'service'],
    ['Mozilla/5.0 (X11; Linux x86_64) Firefox/125.0', 'browser'],
    ['', 'other'],
    [undefined, 'other'],
    ['x'.repeat(100_000), 'other'],
  ])('is told by what it says of itself: %p', (said, client) => {
    expect(clientOf(said)).toBe(client);
  });
});
