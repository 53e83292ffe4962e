// A page in two languages: what of the one is left on the other.
import type { TestHouse } from './house.js';
import { readable } from './page-forms.js';

/** A page as a browser of that language asks for it. */
export async function fetchedIn(house: TestHouse, url: string, language: string, status = 200) {
  const answer = await house.app.inject({
    url,
    headers: { accept: 'text/html', 'accept-language': language },
  });
  expect([url, answer.statusCode]).toEqual([url, status]);
  return answer;
}

/** What is read or heard: text, and the names of pictures and parts. */
export function textsOf(html: string): string[] {
  const body = html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, ' ');
  const texts = [...body.matchAll(/>([^<>]+)</g), ...body.matchAll(/aria-label="([^"]*)"/g)];
  return texts.map(([, text = '']) => readable(text).replace(/\s+/g, ' ').trim());
}

/** The same in both, and not allowed to be: of the studio's own words, numbers and names nothing is translated. */
export function leftovers(english: string, french: string, allowed: (string | RegExp)[]): string[] {
  const same = new Set(textsOf(english));
  const fine = (text: string) =>
    !/\p{L}/u.test(text) || allowed.some((one) => (typeof one === 'string' ? one === text : one.test(text)));
  return [...new Set(textsOf(french).filter((text) => same.has(text) && !fine(text)))];
}

/** Those of the test studio, of the program and of the list of places. */
export const OF_THE_STUDIO = [
  /GeoNames/,
  'Plateday',
  'Sandpiper Loft',
  'Sandpiper Loft, Ropewalk',
  'desk@sandpiper-loft.example',
  'Portraits on glass, by daylight, on Fridays.',
];
