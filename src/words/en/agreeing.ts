// What people agree to on their own page. The words of each are the studio's own.
export const agreeing = {
  title: 'What you agree to',
  lead: 'Each is by itself, and none is needed to sit. You can take any of them back here at any time. A parent or guardian answers for whoever is under 18.',
  yes: 'I agree',
  back: 'Take this back',
  whoHears: (name: string): string => `${name}, who hears from us`,
  purposes: {
    contact: 'Hearing from the studio again',
    record: 'Keeping the record',
    archive: 'Giving it to an archive',
    show: 'Showing it',
    house_rules: 'House rules',
  },
  notYet: 'Not agreed to.',
  given: (day: string, version: number): string =>
    `Agreed to on ${day}, in version ${version} of these words.`,
  givenTo: (day: string, version: number, who: string): string =>
    `Agreed to on ${day}, told to ${who}, in version ${version} of these words.`,
  takenBack: (version: number, given: string, back: string): string =>
    `Version ${version} was agreed to on ${given} and taken back on ${back}.`,
};
