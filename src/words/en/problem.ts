// What a person sees when something cannot be done. In English the sentences stand with the problems themselves.
export const problem = {
  /** Of each kind of problem that a visitor meets: its heading, and what else there is to say. */
  said: {} as Partial<Record<string, { title: string; more?: string }>>,
  wait: (seconds: number): string => `Please wait ${seconds} seconds.`,
  notInPart: 'Nothing you entered was acted on in part. Please try again in a moment.',
  signIn: 'Sign in',
  home: 'To the studio’s front page',
  askUs: (id: string): string => `If you ask us about this, please say “${id}”.`,
  again: {
    title: 'Please send this once more',
    kept: 'The form was open for too long, or the browser was closed in between. Nothing was done yet, and nothing you typed is lost.',
    secret:
      'The form was open for too long, or the browser was closed in between. Nothing was done yet. What you typed is kept, but not your password: please type it again.',
    password: 'Password',
    send: 'Send it now',
    leave: 'Leave it, to the studio’s front page',
  },
};
