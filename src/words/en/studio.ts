// The studio's public page, and why there may be no open place.
import { counted } from '../../lib/words.js';

export const studio = {
  title: 'Open places',
  ask: 'Ask for a sitting',
  open: 'These places are open. Tap one to ask for its day, or ask for any day that suits: times are those at the studio.',
  stillAsk: 'You can still ask: places are given back, and the studio keeps a list.',
  predicted: 'How long one holds still is a prediction from the height of the sun',
  confirmed: '.',
  notConfirmed: '; its figures for the sky are not confirmed.',
  weather: 'The weather decides on the day.',
  lookAtLight: 'Look at the light of a day',
  journey: 'How long is the way here, and when to leave?',
  noPlace: 'No place is open just now.',
  /** Of all days the same is so. */
  all: {
    taken: 'Every place is taken just now.',
    closed: 'The studio is closed on every day that can be asked for just now.',
    dark: 'On every day that can be asked for just now there is too little light for a plate.',
  },
  /** What is so on a count of days. */
  on: {
    taken: (days: number): string => `on ${counted(days, 'day')} every place is taken`,
    closed: (days: number): string => `on ${counted(days, 'day')} the studio is closed`,
    dark: (days: number): string => `on ${counted(days, 'day')} there is too little light for a plate`,
  },
  /** @param parts two or more, each of `on` */
  mixed: (parts: string[]): string =>
    `No place is open just now: ${parts.slice(0, -1).join(', ')}, and ${parts.at(-1)}.`,
  /** Whole seconds, at least one. */
  holdStill: (from: number, to: number, most: number): string =>
    `hold still ${from === to ? `about ${from}` : `${from} to ${to}`} seconds if clear, up to ${most} if dull`,
};
