// The words of letters to the owner about a sitting, in English as everything at the desk. Pure.
import type { Wording } from './letter-parts.calc.js';
import type { OwnerKind, SittingLetter } from './letters.schemas.js';

export function ownerWording(kind: OwnerKind, { place }: Pick<SittingLetter, 'place'>): Wording {
  if (kind === 'owner: given up' && !place) return { subject: '{name} has given up the request', parts: [] };
  return WORDS[kind];
}

const WORDS: Record<OwnerKind, Wording> = {
  'owner: asked': { subject: 'A request from {name}', parts: ['{name} asks for a sitting.'] },
  'owner: given up': {
    subject: '{name} has given up {place}',
    parts: ['The room and what was set aside are free again.'],
  },
  'owner: to telephone': {
    subject: 'Please telephone {name} about {place}',
    parts: [
      '{name} is offered this place, which is so near that a letter may come too late. It is held until {until} (studio time).',
      'Please note their answer on the page of the request.',
    ],
  },
  'owner: not taken': {
    subject: '{name} has not taken {place}',
    parts: ['The place is free again. Your waiting list shows who comes next.'],
  },
};
