// Which plate size is meant. Pure.
import { foldName } from '../../travel/place.calc.js';

/** "whole plate", "Whole": the one size that is called so, or begins so. */
export function sizeCalled<Size extends { name: string }>(
  typed: string,
  sizes: readonly Size[],
): Size | undefined {
  const name = foldName(typed);
  if (name === '') return undefined;
  const same = sizes.find((one) => foldName(one.name) === name);
  const alike = sizes.filter(
    (one) => foldName(one.name).startsWith(name) || name.startsWith(foldName(one.name)),
  );
  return same ?? (alike.length === 1 ? alike[0] : undefined);
}
