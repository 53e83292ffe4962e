// The calculators that anybody may open: the ways from one to the other, and what all of them say.
export const calculators = {
  ways: { daylight: 'Daylight', chemistry: 'Glass and solutions', bath: 'Silver bath' },
  how: 'How was this reckoned?',
};
