// Letters to who learns. In braces what is put in, as in letters.ts.
export const lettersTeaching = {
  facts: {
    day: 'Day',
    when: 'When',
    held: 'Held for you until',
    who: 'Who learns',
    bring: 'Bring',
    wear: 'Wear',
  },
  hours: '{day}, {from} to {until}',
  notFixed: 'Not fixed yet',
  askedFor: 'Asked for {day}',
  /** What has changed; the teaching day is named in each subject. */
  change: {
    asked: {
      subject: 'Your wish to learn: {course}',
      says: 'Thank you, your wish to learn has reached us. The studio answers; nothing is fixed yet.',
    },
    waiting: {
      subject: 'You are on the waiting list: {course}',
      says: 'The day is full, and you are on its waiting list. When places come free you are asked; nothing is fixed yet.',
    },
    offered: {
      subject: 'A place to learn is offered to you: {course}',
      says: 'Places have come free, and they are held for you. Please answer on your page.',
    },
    refused: {
      subject: 'You stay on the list: {course}',
      says: 'Thank you for telling us. You keep your turn on the waiting list.',
    },
    lapsed: {
      subject: 'Our offer has run out: {course}',
      says: 'The places we offered are open to others again. You keep your turn on the waiting list.',
    },
    'run out': {
      subject: 'No more offers are made: {course}',
      says: 'Several offers ran out without an answer, so you are on the waiting list no more.',
    },
    signed: {
      subject: 'You have a place to learn: {course}',
      says: 'You have a place, and we look forward to it. On your page please tell us what the day needs to know, and read and agree to how we work safely: without it nobody stands at the bench.',
    },
    changed: {
      subject: 'Your teaching day has changed: {course}',
      says: 'Something about your teaching day has changed; below it stands as it is now. If it does not suit you any more, give your place back on your page.',
    },
    declined: {
      subject: 'About your wish to learn: {course}',
      says: 'We cannot give you a place this time.',
    },
    withdrawn: {
      subject: 'Your sign-up is withdrawn: {course}',
      says: 'It is withdrawn. You are welcome to sign up again.',
    },
    released: {
      subject: 'Your place is given back: {course}',
      says: 'Your place is given back. You are welcome to sign up again.',
    },
    'called off': {
      subject: 'The teaching day is called off: {course}',
      says: 'We are sorry: this day is not held. Nothing is to be done on your side.',
    },
  },
  reminder: {
    giveBack:
      'If you cannot come, please give the place back on your page today: somebody else waits for it, and what is poured is made for that day only.',
    place: 'Your place: {place}.',
    travel: {
      subject: 'Still coming to learn at {studio} on {day}?',
      prepare: 'It is time to see to the journey and a bed for the night, if you need them.',
    },
    week: {
      subject: 'Your day to learn at {studio}: {place}',
      tell: 'Please tell us if you cannot come.',
    },
    near: { subject: 'Before {day} at {studio}', bring: 'Bring: {bring}', wear: 'Wear: {wear}' },
    eve: { subject: 'See you at {studio} on {day}, {time}', begin: 'We begin together: {place}.' },
    day: { subject: 'Today: {time} at {studio}' },
  },
  /** What is still open before the day, each with what is to be done about it. */
  open: {
    reading: 'Before you come: {what}',
    safety:
      'How we work safely is not agreed to yet by {who}. Please read it and agree on your page: without it nobody stands at the bench.',
    emergency: 'We do not know yet whom to ring in an emergency, for {who}. Please tell us on your page.',
    gear: 'We do not know the size yet for {who}: {what}. Please tell us on your page, so that it fits.',
    deposit: 'The deposit is still due: {what}.',
  },
};
