// "Your data": everything as one file, and asking to be erased.
export const ownData = {
  title: 'Your data',
  lead: 'What you told the studio, what it wrote to you, what you agreed to, and the plates made of you.',
  take: {
    title: 'Take it with you',
    says: 'One file with everything, except what helps you here and whom to ring, since others may see this page: the studio gives you that.',
    label: 'Take the data',
    json: 'Download as one file (JSON)',
    csv: 'Download as a table (CSV)',
  },
  erase: {
    title: 'Have it erased',
    asked: 'You have asked for it. The studio has your wish and answers within a month.',
    says: 'The studio erases your name, how to reach you and all you told it. That plates were made, with their numbers, and what was used for them stays, without you. A place that lies ahead has to be given back first. Older copies of the studio’s records keep you until they are thinned out, a year at most; none of them brings you back.',
    button: 'Ask the studio to erase my data',
  },
};
