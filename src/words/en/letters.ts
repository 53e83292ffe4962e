// Letters to who sits, and to whoever works here. In braces what is put in: {name}; see lib/wording.ts.
export const letters = {
  dear: 'Dear {name},',
  yourPage: 'Your page',
  facts: {
    days: 'Days that suit',
    day: 'Day',
    time: 'Time',
    hours: '{from} to {until} (studio time, {zone})',
    sitter: 'Sitter',
    sitters: 'Sitters',
    plate: 'Plate',
    plates: 'Plates',
    where: 'Where',
  },
  /** "Friday 5 March 2027, 07:15". */
  moment: '{day}, {time}',
  leave: 'Leave home by {leave} (your time, {zone}), to be here without haste.',
  signIn: {
    subject: 'Sign in to {studio}',
    once: 'This link signs you in once, within {minutes} minutes. If you did not ask for it, leave it be: nothing happens.',
    action: 'Sign in',
  },
  invited: {
    subject: 'Work at {studio}',
    work: 'You are invited to work at {studio}: to see who comes and when, the day sheet and the shelf.',
    once: 'This link lets you choose a password. It works once, within {days} days.',
    action: 'Begin',
  },
  takesOut: 'The attached calendar entry takes the day out of your calendar.',
  askAgain: 'You are welcome to ask again.',
  sitting: {
    asked: {
      subject: 'Your request to sit at {studio}',
      thanks:
        'Thank you, your request has reached us. The studio reads every one and answers; nothing is fixed yet.',
      page: 'Your own page shows where it stands. There you can also withdraw it. Please keep the link to yourself.',
    },
    waiting: {
      subject: 'You are on the waiting list of {studio}',
      listed:
        'The studio has put your request on its waiting list. When a place comes on one of your days we ask you; nothing is fixed yet.',
      page: 'Your own page shows how long that may take, and how we reckon it.',
    },
    /** To whoever came for no plate, or was stranded on the way. */
    owed: {
      subject: 'A place is owed to you at {studio}',
      sorry:
        'We are sorry that no plate came of your day here. It was no fault of yours: another place is owed to you. You stand first on our waiting list, with the date on which you first asked, {since}, and we ask you as soon as there is a place.',
      page: 'This is your own page for it; the one of the day that was stays as it is.',
    },
    offered: {
      subject: 'A place for you at {studio}: {place}',
      held: 'We can offer you a place. It is held for you until {until} (studio time); after that it is free for somebody else.',
      answer:
        'On your page you can take it with one tap, or say that this one does not suit you. If it does not, you keep your turn on the list.',
    },
    refused: {
      subject: 'You stay on the waiting list of {studio}',
      thanks:
        'Thank you for telling us that this place does not suit you. It is free for somebody else now, and you keep your turn on the list.',
    },
    lapsed: {
      subject: 'Our offer has run out: {place}',
      free: 'We had no answer in time, so the place is free for somebody else. You keep your turn on the list, and we ask you again when another place comes.',
    },
    'run out': {
      subject: 'Do you still want to sit at {studio}?',
      none: 'Our offers have run out without an answer, so we make no more of them.',
      back: 'If you still want to come, one tap on your page puts you back on the list, with the date on which you first asked.',
    },
    'called back': {
      subject: 'The place we offered you cannot be held: {place}',
      sorry: 'We are sorry: the studio has to call back the place it offered you.',
      turn: 'You keep your turn on the list, and we ask you again when another place comes.',
    },
    'called off': {
      subject: 'The studio has to call off {place}',
      sorry: 'We are sorry: {place} cannot be held. Please do not set out for it.',
      first:
        'You stand first on our waiting list, with the date on which you first asked, and we ask you as soon as there is another place.',
    },
    moved: {
      subject: 'Your place at {studio} is moved to {place}',
      now: '{was} cannot be held. Your place is now on {place}.',
      entry: 'The attached calendar entry moves with it.',
      unsuited:
        'If the new day does not suit you, say so on your page: you then wait for another, first on the list.',
    },
    'another day': {
      subject: 'You wait for another day at {studio}',
      free: 'You have asked for another day. The place is free for somebody else, and you keep your turn on the list.',
    },
    confirmed: {
      subject: 'Your place at {studio}: {place}',
      glad: 'We are glad to tell you that you have a place.',
      entry: 'The calendar entry is attached.',
      giveBack:
        'If you cannot come, please give the place back on your page: someone else has been waiting for it.',
    },
    declined: {
      subject: 'Your request to sit at {studio}',
      sorry: 'We are sorry, we cannot give you a place.',
    },
    withdrawn: {
      subject: 'Your request to {studio} is withdrawn',
      done: 'You have withdrawn your request, and nothing is kept open for you. You are welcome to ask again.',
    },
    released: {
      subject: 'Your place at {studio} is given back: {place}',
      thanks: 'You have given your place back, and someone else may have it now. Thank you for telling us.',
    },
  },
  /** Before the day. */
  reminder: {
    giveBack:
      'If you cannot come, please say so on your page today: one tap asks for another day or gives the place back. A place that stays empty is one that somebody else has waited months for, and its chemistry is made for that day only.',
    ring: 'If something has come between, please ring us: {ring}.',
    travel: {
      subject: 'Still coming to {studio} on {day}?',
      prepare:
        'Your place is on {place}. It is time to see to the journey and a bed for the night, if you need them.',
    },
    week: { subject: 'Your place at {studio}: {place}', place: 'Your place is on {place}.' },
    near: {
      subject: 'Before {day} at {studio}',
      look: 'Your place is on {place}. The plate sees blue light most: blue may come out pale, red and yellow dark, and freckles stronger than to the eye. It shows you as a mirror does.',
    },
    eve: {
      subject: 'See you at {studio} on {place}',
      bring: 'You need to bring nothing but what we agreed on. Dull weather calls nothing off.',
    },
    day: { subject: 'Today: {time} at {studio}' },
  },
};
