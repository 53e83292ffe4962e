// One's own calendar: following it on any device, having the journeys in it, and a new address.
export const ownCalendar = {
  title: 'Your calendar',
  lead: (studio: string): string =>
    `Your day at ${studio} in the calendar you use anyway. It keeps in step by itself.`,
  done: {
    replace: 'The new address stands below. The old one has stopped: put the new one on your phone.',
    journeys: 'Your journeys stand in your calendar the next time it looks.',
    'no-journeys': 'Your journeys go from your calendar the next time it looks.',
  },
  card: {
    title: 'Your calendar link',
    follow: 'Put this on my phone',
    or: ', or see ',
    other: 'how to do it on other devices',
    more: ': with a picture to scan, an address to copy, and your journey if you like. Please keep the address to yourself.',
  },
  here: 'On this phone, tablet or computer:',
  address: 'Address of your calendar',
  picture: 'The address of your calendar as a picture to scan',
  scan: 'Scan it with another phone',
  point: 'Point the camera of the phone at this picture, and open what it finds.',
  anyProgram:
    'For any calendar that can follow another by its address. Whoever has it can read the calendar.',
  copy: 'Copy',
  copied: 'Copied.',
  marked: 'Marked: now copy it by hand.',
  journeys: {
    title: 'Your journey as well?',
    some: 'The way there and the way home stand in your calendar, with the moment by which to leave.',
    none: 'The way there and the way home can stand in your calendar too, by the clock where you live, with the moment by which to leave.',
    /** Before the link, and the link. */
    needed: 'For that we need to know ',
    home: 'where you travel from',
    label: 'The journey in your calendar',
    take: 'Take my journeys out',
    add: 'Add my journeys',
  },
  replace: {
    title: 'Somebody else has this address',
    says: 'Make a new one: the old one stops at once, for every calendar that follows it. Put the new one on your phone then.',
    label: 'A new address',
    button: 'Make a new address',
  },
  back: 'Back to your page',
  steps: {
    local: 'This studio runs on this computer alone for now, so other devices cannot reach the address.',
    which: 'Which is yours?',
    own: {
      title: 'A phone or tablet that comes with a calendar of its own',
      says: [
        'Press the button on the phone itself, or scan the picture with its camera.',
        'It asks whether to subscribe, or to follow this calendar. Say yes.',
        'If it asks for an account or a password, leave both empty: the address is all it needs.',
      ],
    },
    account: {
      title: 'A phone whose calendar belongs to a mail account',
      says: [
        'If nothing happens when you press the button, the phone cannot follow a calendar by itself.',
        'Copy the address. On a computer, sign in to that mail account, open its calendar, and look for “add other calendars”, then “from an address” or “from URL”. Paste it there.',
        'On the phone, open the calendar’s settings and switch the new calendar on, so that it is shown.',
        'Or take a small program for following calendars from the phone’s store, and give it the address.',
      ],
    },
    computer: {
      title: 'A calendar program on a computer',
      says: [
        'Press the button on the computer. If nothing opens, copy the address.',
        'Look in the program’s menu for “new calendar”, then “on the network” or “subscribe”, and paste it.',
        'Choose that it only reads. You can also choose how often it looks.',
      ],
    },
    paper: {
      title: 'A paper calendar',
      letters: 'Write it down from the letter: it has day and hour.',
      sheets: 'The day sheets can be printed.',
    },
    know: {
      title: 'Please know',
      follow: 'Follow it; do not import it. What is imported stays as it was that day.',
      looks:
        'A calendar looks again when it likes: some after an hour, some once a day, and nobody here can make it come sooner.',
      letterFirst: ' So when anything changes, the letter comes first. Believe the letter.',
      reading: 'It is for reading. What you change in your calendar reaches nobody.',
      ended:
        'Once the link is ended or made anew, the old address gives nothing more. A calendar that followed it may show what it had; delete it there.',
    },
  },
};
