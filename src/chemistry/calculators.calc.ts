// The calculators that anybody may use, as ways from one to the other.

const WAYS = [
  { href: '/daylight', label: 'Daylight' },
  { href: '/chemistry', label: 'Glass and solutions' },
  { href: '/chemistry/bath', label: 'Silver bath' },
] as const;

export const calculators = (at: (typeof WAYS)[number]['href']) =>
  WAYS.map((way) => ({ ...way, current: way.href === at }));
