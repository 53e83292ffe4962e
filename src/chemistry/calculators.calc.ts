// The calculators that anybody may use, as ways from one to the other.
import type { Words } from '../words/words-for.js';

const WAYS = [
  { href: '/daylight', way: 'daylight' },
  { href: '/chemistry', way: 'chemistry' },
  { href: '/chemistry/bath', way: 'bath' },
] as const;

export const calculators = (at: (typeof WAYS)[number]['href'], { calculators: words }: Words) =>
  WAYS.map(({ href, way }) => ({ href, label: words.ways[way], current: href === at }));
