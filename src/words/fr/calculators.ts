// Not checked by a native reader.
import type { calculators } from '../en/calculators.js';

export const frenchCalculators: typeof calculators = {
  ways: { daylight: 'Lumière du jour', chemistry: 'Verre et solutions', bath: 'Bain d’argent' },
  how: 'Comment est-ce calculé ?',
};
