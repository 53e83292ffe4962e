// What the desk says of each kind of calendar link.
import type { DeskFeed } from '../calendar/feeds.calc.js';

interface FeedWords {
  title: string;
  about: string;
  follow: string;
  address: string;
  none: string;
  make: string;
  /** Of a link that has no name of its own. */
  first: string;
}

export const FEED_WORDS: Record<DeskFeed, FeedWords> = {
  owner: {
    title: 'All of the studio',
    about:
      'All sittings, teaching days and closed days, with names and what people told you. For you alone: please keep it to yourself.',
    follow: 'Follow this calendar',
    address: 'Address of your calendar',
    none: 'You have no calendar link yet.',
    make: 'Make my calendar link',
    first: 'Your calendar',
  },
  tasks: {
    title: 'Tasks',
    about:
      'What must be prepared and by when, with the care of the baths. It names no sitter, so you can hand it to whoever helps you.',
    follow: 'Follow the tasks',
    address: 'Address of the calendar of tasks',
    none: 'There is no link to the tasks yet.',
    make: 'Make a link to the tasks',
    first: 'Tasks',
  },
  assistant: {
    title: 'For your assistant',
    about:
      'Who comes on which day, for which plates, and what would help them; of teaching days who learns. No telephone numbers, and nothing that people told you only.',
    follow: 'Follow the day sheets',
    address: 'Address of the calendar for your assistant',
    none: 'There is no link for an assistant yet.',
    make: 'Make a link for my assistant',
    first: 'Day sheets',
  },
  busy: {
    title: 'Busy times only',
    about:
      'For family, or for another calendar of yours: when you work with people, and nothing else. No names, no places. An offered place stands there as not sure yet; closed days are left out.',
    follow: 'Follow the busy times',
    address: 'Address of the busy times',
    none: 'There is no link to busy times yet.',
    make: 'Make a link to busy times',
    first: 'Busy times',
  },
};
