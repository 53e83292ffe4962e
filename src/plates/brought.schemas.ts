// A plate made before there was a book of them here: it has its number already, and takes nothing off the shelf.
import type { Made } from './made.schemas.js';

export type BroughtPlate = Pick<
  Made,
  'number' | 'day' | 'plateSizeId' | 'keeper' | 'seconds' | 'names' | 'result' | 'note'
>;
