// The desk's facts in the owner's words, the same on every page of it.
import { Temporal } from 'temporal-polyfill';
import { counted, dayInWords, monthName, timeInWords, weekdayName } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import type { LetterKind } from '../reminders/letters.schemas.js';
import type { HoldStill } from '../room/openings.calc.js';
import type { Kind } from '../room/rules.schemas.js';
import type { SittingView, SuitingDays } from '../sittings/sittings.schemas.js';
import type { JourneyGlance } from '../travel/journey-glance.calc.js';
import { MODE_WORDS } from '../travel/words.calc.js';

type Day = Pick<Temporal.PlainDate, 'dayOfWeek' | 'day' | 'month' | 'year'>;

/** "Friday 14 May": the year is told by what stands around it. */
export const shortDay = (day: Day): string =>
  `${weekdayName(day.dayOfWeek)} ${day.day} ${monthName(day.month)}`;

/** "any day, 1 March to 31 May 2027"; "14 May, 21 May and 3 more". */
export function suitsInShort(suits: SuitingDays): string {
  const short = ({ day, month }: Day) => `${day} ${monthName(month)}`;
  if (suits.kind === 'any') {
    const from = suits.from.year === suits.until.year ? short(suits.from) : longDay(suits.from);
    return `any day, ${from} to ${longDay(suits.until)}`;
  }
  const shown = suits.days.slice(0, 3).map(short);
  const more = suits.days.length - shown.length;
  return more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
}

const longDay = ({ day, month, year }: Day) => `${day} ${monthName(month)} ${year}`;

/** "2 people on 3 plates: 2 × Half plate, 1 × Whole plate". */
export function platesInWords({
  sitters,
  plates,
}: Pick<SittingView, 'plates'> & { sitters: readonly unknown[] }): string {
  const sizes = new Map<string, number>();
  for (const { sizeName } of plates) sizes.set(sizeName, (sizes.get(sizeName) ?? 0) + 1);
  const list = [...sizes].map(([name, count]) => (plates.length === 1 ? name : `${count} × ${name}`));
  const people = counted(sitters.length, 'person', 'people');
  return `${people} on ${counted(plates.length, 'plate')}: ${list.join('; ')}`;
}

/** "hold still 6 to 9 s, up to 34 s if dull": whole seconds, at least one. */
export function holdStillInShort({ clear, dull }: HoldStill): string {
  const whole = (seconds: number) => Math.max(1, Math.round(seconds));
  const [from, to, most] = [whole(clear.from), whole(clear.to), whole(dull.to)];
  const span = from === to ? `about ${from}` : `${from} to ${to}`;
  return `hold still ${span}\u00a0s, up to ${most}\u00a0s if dull`;
}

const kilometres = new Intl.NumberFormat('en');

/** "412 km, a night’s stay likely"; "412 km, they come by train and stay the night". */
export function journeyInShort(journey: JourneyGlance | null): string {
  if (!journey) return 'home place not known';
  const far = journey.km === 0 ? 'under 1' : kilometres.format(journey.km);
  return `${far}\u00a0km, ${howTheyCome(journey)}`;
}

function howTheyCome({ own, mode, overnight, farAway }: JourneyGlance): string {
  const day = farAway === 'near' ? 'near by' : 'there and back in a day';
  if (own) return `they come ${MODE_WORDS[mode]}${overnight ? ' and stay the night' : `, ${day}`}`;
  if (mode === 'flight') return 'a flight likely';
  if (mode === 'ferry') return overnight ? 'a ferry and a night’s stay likely' : `a ferry likely, ${day}`;
  return overnight ? 'a night’s stay likely' : day;
}

/** "Friday 14 May 2027, 10:02", time at the studio. */
export function momentInWords(zone: string, at: Temporal.Instant): string {
  const wall = instantToWall(zone, at);
  return `${dayInWords(wall)}, ${timeInWords(wall)}`;
}

const EVENTS: Record<string, string> = {
  'new link': 'made a new link to their page',
  'send again': 'had a letter sent again',
  'letter words': 'kept words for a letter',
  language: 'noted in which language letters go to them',
  ask: 'asked for a sitting',
  bring_in: 'brought in from elsewhere',
  type_in: 'typed in what they asked for on the telephone',
  approve: 'gave the place',
  decline: 'declined',
  wait: 'put it on the waiting list',
  offer: 'offered a place',
  accept: 'took the place',
  refuse: 'said no to the place',
  lapse: 'let the offer run out',
  run_out: 'let the last offer run out',
  reopen: 'went back on the waiting list',
  ask_another_day: 'asked for another day',
  mark: 'changed a mark of the waiting list',
  withdraw: 'withdrew the request',
  release: 'gave the place back',
  call_off: 'called the sitting off',
  move: 'moved the sitting',
  delay: 'gave them a later place',
  arrive: 'ticked that they are here',
  not_arrived: 'took the tick of their arrival back',
  end_made: 'told that it was made',
  end_no_plate: 'told that they came and there was no plate',
  end_missed: 'told that they did not come',
  owed_done: 'ticked something that was owed for the plates',
  owed_not_done: 'took a tick of what was owed back',
  voucher_used: 'used a gift voucher on it',
  voucher_back: 'took the use of a gift voucher back',
  surprise_over: 'said that they may know now',
  undo_ending: 'took the ending back',
  return_owed: 'put it on the list in the stead of one without a plate',
  undo: 'took back what was done last, before anybody was told',
  told: 'told them by hand',
  not_told: 'took back the tick that they were told',
  correct: 'put details right',
  wish: 'asked for a change of the plan',
  wish_answered: 'ticked that this is answered',
  consent: 'noted a yes to one of the things that are asked',
  consent_back: 'took such a yes back',
  erase: 'erased their data',
  erase_asked: 'asked to be erased',
  keeping: 'set how long data is kept',
  pose: 'noted how they hold still',
  journey: 'told about the journey',
  'own calendar': 'changed their calendar link or what stands in it',
  bottle: 'chose a bottle for it',
  rederive: 'kept the hour after the law of the clocks changed',
  clash: 'found another place in the same hour',
  takes: 'said what a day takes of the shelf',
};

/** "Series sitting; no fee; the plate goes to the series". */
export function kindInWords({ name, fee, deposit, keepsPlate }: Kind): string {
  const keeper = {
    sitter: 'they keep the plate',
    studio: 'the studio keeps the plate',
    series: 'the plate goes to the series',
  };
  const paid = [fee, deposit === '' ? '' : `deposit ${deposit}`].filter((one) => one !== '');
  return [name, ...paid, keeper[keepsPlate]].join('; ');
}

/** What was said with it is told as well. */
const TOLD_IN_FULL = ['correct', 'wish', 'voucher_used'];

/** Who did what, with the contact by name. */
export function eventInWords(
  { who, event, note = '' }: { who: string; event: string; note?: string },
  contact: string,
): string {
  const words = `${who === 'contact' ? contact : who} ${EVENTS[event] ?? event}`;
  return note !== '' && TOLD_IN_FULL.includes(event) ? `${words}: ${note}` : words;
}

/** The same without who did it, for the list of everything; dates, noted as programs write them, in words. */
export const deedInWords = ({ event, note }: { event: string; note: string }): string =>
  [EVENTS[event] ?? event.replaceAll('_', ' '), note]
    .filter(Boolean)
    .join(': ')
    .replace(/\b\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])\b/g, dateInWords);

/** A day that there is none of, such as 30 February, stays as it is. */
function dateInWords(date: string): string {
  try {
    return dayInWords(Temporal.PlainDate.from(date));
  } catch {
    return date;
  }
}

/** What a letter is about, for a list of letters. */
export const LETTER_WORDS: Record<LetterKind, string> = {
  asked: 'Your request has reached us',
  waiting: 'You are on the waiting list',
  offered: 'A place is offered to you',
  refused: 'You stay on the list',
  lapsed: 'Our offer has run out',
  'run out': 'No more offers are made',
  'called back': 'An offered place is called back',
  'called off': 'A sitting is called off, and they wait first on the list',
  'called off for good': 'A sitting is called off',
  moved: 'A place is moved',
  'another day': 'You wait for another day',
  confirmed: 'You have a place',
  declined: 'We cannot give you a place',
  withdrawn: 'Your request is withdrawn',
  released: 'Your place is given back',
  'reminder: travel': 'Still coming, and the journey',
  'reminder: week': 'A week before',
  'reminder: near': 'How to prepare',
  'reminder: eve': 'The day before',
  'reminder: day': 'On the day',
  'owner: asked': 'Somebody asks for a sitting',
  'owner: given up': 'A place or request was given up',
  'owner: to telephone': 'Somebody is to be telephoned',
  'owner: not taken': 'An offered place was not taken',
  'sign-in': 'A link to sign in with',
  teaching: 'About a day of teaching',
  'teaching reminder: travel': 'Teaching: still coming, and the journey',
  'teaching reminder: week': 'Teaching: a week before',
  'teaching reminder: near': 'Teaching: how to prepare',
  'teaching reminder: eve': 'Teaching: the day before',
  'teaching reminder: day': 'Teaching: on the day',
  'owner: day': 'The day ahead',
  'owner: teaching': 'Somebody signs up or leaves a day of teaching',
};

/** What a browser says of itself, as far as a person cares: "a phone", "a computer". */
export function deviceInWords(agent: string): string {
  if (agent === '' || agent === 'a program') return 'a program';
  if (/iPad|Tablet|Android(?!.*Mobile)/i.test(agent)) return 'a tablet';
  if (/Mobi|iPhone|Android/i.test(agent)) return 'a phone';
  if (/Windows|Macintosh|X11|Linux|CrOS/i.test(agent)) return 'a computer';
  return 'a program';
}
