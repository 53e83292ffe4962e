// Which of several items serves, where a kind of thing is asked for and not a certain one.
import type { Item, ItemKind } from './stock.schemas.js';

/** The kinds of which one item is the usual; glass for each size of plate. */
export const WITH_A_USUAL: readonly ItemKind[] = ['glass', 'collodion', 'developer', 'fixer', 'varnish'];

/** The usual one of a kind (of glass: of a size), else the first in the order given; none that is put away. */
export function usualOf(
  items: readonly Item[],
  kind: string,
  plateSizeId: string | null = null,
): Item | undefined {
  const serving = items.filter(
    (item) => !item.archived && item.kind === kind && (kind !== 'glass' || item.plateSizeId === plateSizeId),
  );
  return serving.find((item) => item.usual) ?? serving[0];
}
