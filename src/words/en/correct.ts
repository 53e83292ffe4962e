// The page where people put their details right, and ask the studio for what would change the plan.
export const correct = {
  title: 'Your details',
  lead: 'What you change here holds at once, and the studio sees it. Your day and your turn on the list stay as they are.',
  tooLate:
    'This form was open for too long, so nothing is changed yet. Please look it over and send it again.',
  you: 'You',
  name: 'Your name',
  language: 'We write to you in',
  who: 'Who sits',
  whoHint: 'Somebody else in their stead? Write the new name.',
  guardian: 'Parent or guardian',
  accessToldHint:
    'You have told us something. We do not show it here; what you write takes its place, and left empty it stays. Please leave out matters of health.',
  told: 'What you told us before',
  takeAway: 'Take away what I told you about this',
  keep: 'Keep these details',
  back: 'Back, without a change',
  ask: {
    title: 'More plates, another size, more people?',
    says: 'The studio has to look whether day, light and glass are enough, so this is asked first. Nothing changes until the studio has answered.',
    label: 'Ask the studio',
    what: 'What would you like?',
    asked: 'You have asked for this. Write anew to ask for something else.',
    button: 'Ask the studio',
  },
};
