// The planner's weights, parts and reasons in the owner's words.
import { counted } from '../lib/words.js';
import type { Gives, LeftOutShown, Plan } from '../sittings/plans.schemas.js';
import type { Matters, Part, Weighed, Weights } from '../waiting/planner-points.calc.js';

export const MATTERS_WORDS: Record<Matters, string> = {
  not: 'does not matter',
  some: 'matters',
  much: 'matters much',
};

/** What is weighed, as a question to the owner and as a line of the reckoning. */
export const WEIGHED_WORDS: Record<Weighed, { label: string; hint: string; part: string }> = {
  order: {
    label: 'The order of the waiting list',
    hint: 'Whoever stands further up is placed first.',
    part: 'their turn on the list',
  },
  person: {
    label: 'What suits the person',
    hint: 'A sooner day of theirs, and there and back in waking hours. A day they did not ask for is never taken.',
    part: 'how soon, and the journey',
  },
  light: {
    label: 'Light they can hold still for',
    hint: 'Children and groups into the bright hours. Unless this does not matter, nobody is asked to hold still longer than they can under a clear sky.',
    part: 'light and holding still',
  },
  stock: {
    label: 'Plates and chemistry that are there',
    hint: 'Rather a day for which nothing is still to be mixed or ordered.',
    part: 'what the shelf has',
  },
  gaps: {
    label: 'Few empty hours',
    hint: 'Full days, and sittings that end as the next begins.',
    part: 'little empty time after it',
  },
};

export const TOGETHER_WORDS: Record<Weights['together'], string> = {
  always: 'always on one day, or none of them',
  rather: 'rather on one day',
  'no matter': 'does not matter',
};

export const GIVES_WORDS: Record<Gives, { label: string; hint: string; done: string }> = {
  offer: {
    label: 'Ask them first',
    hint: 'Each place is offered and held until the offer runs out.',
    done: 'offered',
  },
  place: {
    label: 'Give them the places',
    hint: 'Each is confirmed at once, on a day they asked for.',
    done: 'given',
  },
};

export const partInWords = ({ part }: Part): string =>
  part === 'place' ? 'having a place at all' : WEIGHED_WORDS[part].part;

/** How good a plan is: "Nothing better exists." */
export function qualityInWords({ points, bound }: Pick<Plan, 'points' | 'bound'>): string {
  if (bound === points) return 'No better plan exists for what you said matters.';
  const share = Math.ceil((1000 * (bound - points)) / Math.max(1, points)) / 10;
  return `The search was ended when its time was over: a better plan may exist, by at most ${share} %.`;
}

interface Around {
  /** Names of contacts by sitting. */
  nameOf: (sittingId: string) => string;
  /** A day in words. */
  dayOf: (day: string) => string;
  itemOf: (itemId: string) => string;
}

/** Why somebody has no place, in a sentence. */
export function leftOutInWords(left: LeftOutShown, { nameOf, dayOf, itemOf }: Around): string {
  const who = namesInWords(left.by.map(nameOf));
  const rank = left.allBefore ? ', before them on the list' : '';
  const onDay = left.day === null ? '' : ` on ${dayOf(left.day)}`;
  const nearest = left.day === null ? '' : ` Nearest: ${dayOf(left.day)}.`;
  switch (left.why) {
    case 'no day suits':
      return 'None of your days is among those they asked for.';
    case 'no open place':
      return 'No place is open on their days for as many plates and people.';
    case 'notice too long':
      return 'All their days are nearer than the notice they need.';
    case 'no time to answer':
      return 'All their days are so near that they would have too little time for an answer.';
    case 'hold still too long':
      return 'On all their days they would have to hold still longer than they can.';
    case 'cannot be had':
      return 'What their plates need cannot be had for any of their days.';
    case 'said no':
      return 'They said no to the places that are open on their days, or let the offers run out.';
    case 'room taken':
      return `The nearest place${onDay} goes to ${who}${rank}.`;
    case 'day full':
      return `The nearest day is full with ${who}${rank}.${nearest}`;
    case 'no more plates':
      return `The plates of the nearest day go to ${who}${rank}.${nearest}`;
    case 'kept back':
      return `What is left of the nearest day is kept off the public page.${nearest}`;
    case 'year full':
      return 'All sittings of this kind are given that year.';
    case 'stock short':
      return `The ${itemOf(left.item ?? '')} in the house goes to ${who}${rank}, and more cannot be had in time.${nearest}`;
    case 'party apart':
      return `They travel with ${who}, whose day is another one.`;
    case 'party':
      return `They travel with ${who}, and there is no day for all of them.`;
    case 'not reached':
      return 'Nothing is in the way: the search was ended before their turn, or opening a day for them alone is not worth it by your weights.';
  }
}

const NAMED = 3;

/** "Ada, Ben and 2 others"; "others" for nobody known. */
export function namesInWords(names: string[]): string {
  const known = [...new Set(names)].filter((name) => name !== '');
  if (known.length === 0) return 'others';
  const shown = known.slice(0, NAMED);
  const more = known.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${counted(more, 'other')}`;
  const last = shown.pop();
  return shown.length === 0 ? (last ?? '') : `${shown.join(', ')} and ${last}`;
}
