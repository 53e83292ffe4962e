// A place that came free while somebody waits, as a line of the desk's front page.
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import type { FreedForWho } from '../sittings/list.schemas.js';
import { Entry } from './inbox-work.pages.js';

/** Where a place stands on the page of the waiting list. */
export const freedId = ({ wallStart }: Pick<FreedForWho, 'wallStart'>): string =>
  `freed-${wallStart.toString({ smallestUnit: 'minute' })}`;

export function CameFree({ at, one }: { at: string; one: FreedForWho }) {
  const { wallStart } = one;
  return (
    <Entry
      href={`${at}/waiting#${freedId(one)}`}
      title={`${dayInWords(wallStart)}, ${timeInWords(wallStart)}`}
    >
      {freedInWords(one)}
    </Entry>
  );
}

function freedInWords({ first, others, byRule, mode }: FreedForWho): string {
  const { name } = first.contact;
  const more = others > 0 ? `, and ${counted(others, 'more', 'more')} could be asked after them` : '';
  if (byRule) return `Your rule offers it by itself: to ${name}${more}. There is nothing to do.`;
  if (mode === 'automatic')
    return `Your rule has offered it to nobody: on the list ${name} could be asked${more}. Offer it yourself.`;
  return `Next on the list: ${name}${more}. Nobody is asked until you offer it.`;
}
