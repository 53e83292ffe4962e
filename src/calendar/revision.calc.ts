// Revisions of calendar entries that are made of several things: the later counts. Pure.
import { Temporal } from 'temporal-polyfill';

/** The later of two instants. */
export const laterOf = (a: Temporal.Instant, b: Temporal.Instant): Temporal.Instant =>
  Temporal.Instant.compare(a, b) < 0 ? b : a;
