// What stands around the content of every page, and around every field of a form.
export const frame = {
  /** Said of a language that no native reader has checked; '' for one that needs no such note. */
  unchecked: '',
  skip: 'Skip to the page',
  pages: 'Pages',
  languages: 'Languages',
  questions: (studio: string | undefined): string =>
    studio === undefined ? 'Questions?' : `Questions? Ask ${studio}.`,
  keptWith: 'Kept with Plateday',
  ways: {
    open: 'Open places',
    ask: 'Ask for a sitting',
    learn: 'Learn',
    desk: 'Your desk',
    signIn: 'Sign in',
  },
  signOut: 'Sign out',
  /** Begins the title of a page and the message of a field where something is wrong. */
  error: 'Error: ',
  problem: 'There is a problem',
  /** What is wrong with an answer, from the English sentence that the program says it by. */
  beside: (sentence: string): string => sentence,
  optional: ' (optional)',
  choose: 'Please choose',
  /** Heard while places are proposed; # stands for how many. */
  proposed: { title: 'Places', found: '# places; arrow keys choose.', none: 'No place found.' },
  day: 'Day',
  month: 'Month',
  year: 'Year',
};
