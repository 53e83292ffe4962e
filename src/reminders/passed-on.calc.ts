// What stands in a letter that the studio passes on, where it differs from what goes to them: who rings notes the answers.
// As everything at the desk, in English.
export const PASSED_ON = {
  answer:
    'Please ask whether they take it, and note the answer on the page of the request. If it does not suit them, they keep their turn on the list.',
  back: 'If they still want to come, they can go back on the list, with the date on which they first asked.',
  unsuited:
    'If the new day does not suit them, please note it on the page of the request: they then wait for another, first on the list.',
  cannotCome: 'If you cannot come, please tell us as soon as you know: someone else has been waiting for it.',
  giveBack:
    'If they cannot come, please note it on the page of the request: somebody else has waited months for the place, and its chemistry is made for that day only.',
  leave: 'They should leave home by {leave} (their time, {zone}), to be here without haste.',
  teachingGiveBack:
    'If they cannot come, please note it on the page of the day: somebody else waits for the place, and what is poured is made for that day only.',
  open: {
    reading: 'Before you come: {what}',
    safety:
      'How we work safely is not agreed to yet by {who}. Please read it and agree: without it nobody stands at the bench.',
    emergency: 'We do not know yet whom to ring in an emergency, for {who}. Please tell us.',
    gear: 'We do not know the size yet for {who}: {what}. Please tell us, so that it fits.',
    deposit: 'The deposit is still due: {what}.',
  },
};
