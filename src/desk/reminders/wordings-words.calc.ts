// What each letter with words of its own is called at the desk.
import type { WordedKind } from '../../reminders/wordings.schemas.js';
import { LETTER_WORDS } from '../words.calc.js';

type OfTeaching = Extract<WordedKind, `teaching: ${string}`>;

const TEACHING: Record<OfTeaching, string> = {
  'teaching: asked': 'Your wish to learn has reached us',
  'teaching: waiting': 'You are on the list of a teaching day',
  'teaching: offered': 'Places to learn are offered',
  'teaching: refused': 'You stay on the list of a teaching day',
  'teaching: lapsed': 'Our offer to learn has run out',
  'teaching: run out': 'No more offers to learn are made',
  'teaching: signed': 'You have a place to learn',
  'teaching: changed': 'A teaching day has changed',
  'teaching: declined': 'We cannot give you a place to learn',
  'teaching: withdrawn': 'Your sign-up is withdrawn',
  'teaching: released': 'Your place to learn is given back',
  'teaching: called off': 'A teaching day is called off',
  'teaching: reminder: travel': LETTER_WORDS['teaching reminder: travel'],
  'teaching: reminder: week': LETTER_WORDS['teaching reminder: week'],
  'teaching: reminder: near': LETTER_WORDS['teaching reminder: near'],
  'teaching: reminder: eve': LETTER_WORDS['teaching reminder: eve'],
  'teaching: reminder: day': LETTER_WORDS['teaching reminder: day'],
};

export const WORDED_WORDS: Record<WordedKind, string> = {
  ...LETTER_WORDS,
  ...TEACHING,
  owed: 'A place is owed to you',
};
