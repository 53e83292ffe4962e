// The sitter's own page: where the request stands, the place, an offer, the wait, and giving it up.
import { counted } from '../../lib/words.js';

export const place = {
  title: { request: 'Your request', sitting: 'Your sitting' },
  /** What was just done. */
  done: {
    asked: 'Your request has reached the studio. Please keep the address of this page: it is yours.',
    'given-up': 'It is given up, and a message about it is on its way.',
    accepted: 'The place is yours. A message with the calendar entry is on its way.',
    refused: 'Thank you. It is free for somebody else, and you keep your turn on the list.',
    'another-day': 'The place is given back, and you wait for another day.',
    reopened: 'You are back on the list, with the date on which you first asked.',
    reminders: 'Thank you, that is noted.',
    language: 'Thank you. Letters and your calendar are in English from now on.',
    journey: 'Thank you, that is noted. See below when to leave.',
    corrected: 'Your details are kept as they stand below.',
    'as-before': 'Nothing was different, so nothing is changed.',
    wished: 'The studio has your wish and will answer. Nothing is changed yet.',
    consent: 'Noted. You can change this here at any time.',
  },
  /** What could not be done. */
  notDone: {
    over: 'Nothing lies ahead any more that could be changed here.',
    'words-changed': 'The studio has changed these words in the meantime. Please read them again.',
    'ran-out': 'This offer had run out, and the place is open to others again.',
    taken: 'This place cannot be held any more. The studio is sorry, and writes to you.',
    already: 'This was given up already, or answered in the meantime.',
  },
  lead: {
    requested: 'The studio has your request and will answer. Nothing is fixed yet.',
    waiting: 'You are on the waiting list. Nothing is fixed yet; when a place comes you are asked.',
    offered: 'The studio offers you a place. It is held for you until the offer runs out.',
    confirmed: 'You have a place. We look forward to meeting you.',
    made: 'Your sitting has been held. Thank you for coming.',
    came_no_plate:
      'You came, and no plate could be made. It was no fault of yours: the studio owes you another place, and a letter about it brings you the page for it.',
    did_not_come: 'This sitting was not held.',
    declined: 'The studio could not give you a place.',
    withdrawn: 'You have withdrawn this request. You are welcome to ask again.',
    lapsed: 'Offers ran out without an answer, so no more are made. You can go back on the list.',
    released: 'You have given this place back. You are welcome to ask again.',
    called_off: 'The studio had to call this sitting off.',
  },
  hourHasCome: 'The hour of your sitting has come.',
  offerRanOut: 'The offer we made you has run out. You keep your turn on the list.',
  returnOwed: (askedOn: string): string =>
    `The studio owes you a place: you come first on the list, with the date on which you first asked, ${askedOn}, and are asked when one is free.`,
  putBack: 'Put me back on the list',
  facts: {
    title: 'Where it stands',
    state: 'State',
    days: 'Days that suit',
    day: 'Day',
    time: 'Time',
    hours: (from: string, until: string, zone: string): string =>
      `${from} to ${until}, time at the studio (${zone})`,
    kind: 'Kind of sitting',
    sitters: (count: number): string => (count === 1 ? 'Sitter' : 'Sitters'),
    plates: 'Plates',
    plate: (size: string, names: string): string => `${size}: ${names}`,
    hopes: 'You hope for',
    brings: 'You bring',
    guardian: 'Parent or guardian',
  },
  states: {
    requested: 'waiting for the studio’s answer',
    waiting: 'on the waiting list',
    offered: 'a place is offered',
    confirmed: 'confirmed',
    made: 'made',
    came_no_plate: 'came, no plate',
    did_not_come: 'did not come',
    declined: 'declined',
    withdrawn: 'withdrawn',
    lapsed: 'off the list, since offers ran out',
    released: 'given back',
    called_off: 'called off by the studio',
  },
  offer: {
    title: 'A place for you',
    when: (day: string, from: string, until: string): string => `${day}, ${from} to ${until}`,
    /** After the day and hours. */
    atStudio: ', time at the studio.',
    held: (day: string, time: string, zone: string): string =>
      `Held for you until ${day}, ${time} (studio time, ${zone}). After that it is free for somebody else.`,
    take: { label: 'Take this place', button: 'Yes, I take this place' },
    refuse: { label: 'Not this one', button: 'Not this one; I keep waiting' },
  },
  wait: {
    title: 'How long it may take',
    notKnown: 'It cannot be said yet: too few places are in sight',
    upTo: (months: number): string => (months === 1 ? 'Up to a month' : `Up to ${months} months`),
    between: (from: number, to: number): string => `Between ${from} and ${to} months`,
    mostly: ', in eight cases of ten',
    reckoned: '. It is reckoned, not promised.',
    how: 'How this was reckoned',
    standing: (position: number, of: number): string => `You are number ${position} of ${of} on the list.`,
    ahead: (months: number, open: number, given: number): string =>
      `In the next ${months} months ${counted(open, 'place')} ${open === 1 ? 'is' : 'are'} still open and ${given} ${given === 1 ? 'is' : 'are'} given.`,
    ofTen: (taken: number, back: number): string =>
      `Of ten places offered about ${taken} are taken, and of ten given about ${back} come back.`,
    unsure:
      'Places come at no fixed times, and fewer in the dark months: so it is a range. It does not know on which days you can come, or which places go to others first.',
  },
  wish: (words: string): string =>
    `You have asked the studio: “${words}” It has not answered yet, and nothing is changed.`,
  correct: 'Put my details right, or ask for other plates',
  askAgain: 'Ask again',
  another: {
    title: 'Another day would be better?',
    says: 'You give this day back and wait for another, with the date on which you first asked.',
    button: 'Ask for another day',
    sure: (when: string): string =>
      `${when} is free for somebody else at once, and you wait for a new offer.`,
    yes: 'Yes, ask for another day',
  },
  release: {
    title: 'You cannot come?',
    says: 'Give the place back as soon as you know: someone else is waiting for it.',
    button: 'Give my place back',
    sure: (when: string): string => `${when} is free for somebody else at once. This cannot be undone.`,
    yes: 'Yes, give it back',
  },
  withdraw: {
    title: 'You no longer want to?',
    says: 'Withdraw your request; the studio is told at once.',
    button: 'Withdraw my request',
    sure: (): string => 'Your request ends at once. This cannot be undone.',
    yes: 'Yes, withdraw it',
  },
  yourData: 'Your data: take it with you, or have it erased',
  language: {
    title: 'Language',
    hint: 'It holds for letters to you, your calendar and this page.',
    keep: 'Keep this language',
  },
  reminders: {
    title: 'Reminders',
    none: 'You get no reminders before the day. Whatever changes about your place you are still told.',
    some: 'You are reminded of your place before the day.',
    noMore: 'No further reminder comes before the day. Whatever changes about your place you are still told.',
    toCome: 'What we will send you',
    by: {
      email: 'You get these by e-mail.',
      telephone: 'We tell you these on the telephone.',
      letter: 'You get these by letter.',
    },
    line: (day: string, about: string): string => `${day}: ${about}`,
    about: {
      travel: 'the journey, and whether you still come',
      week: 'your place, and how to give it back if you cannot come',
      near: { sitting: 'how to prepare', teaching: 'what to bring and wear' },
      eve: 'when to be here, and when to leave',
      day: 'the hour, once more',
    },
    again: 'Remind me again',
    stop: 'Do not remind me',
    /** Of the page behind the address in a letter's head. */
    stopped: 'You get no reminders any more. Whatever changes about your place you are still told.',
    stopsHere:
      'You are reminded of your place before the day. Here you stop that; whatever changes about your place you are still told.',
  },
};
