// One registry of everything that can go wrong and be told: code -> HTTP status and title.
// Services throw AppError; the filter in problem-filter.ts turns it into RFC 9457 or a page.
// A test ties this table to DEVELOPERS.md.

export const PROBLEMS = {
  bad_input: { status: 422, title: 'Some answers need another look' },
  not_found: { status: 404, title: 'There is nothing at this address' },
  unknown_studio: { status: 404, title: 'There is no studio at this address' },
  link_expired: { status: 410, title: 'This link has run out' },
  link_used: { status: 410, title: 'This link was used already' },
  sign_in_needed: { status: 401, title: 'Please sign in' },
  wrong_sign_in: { status: 401, title: 'That e-mail address and password do not go together' },
  code_needed: { status: 401, title: 'The code of your authenticator is needed too' },
  not_allowed: { status: 403, title: 'This is for the owner of the studio' },
  form_expired: { status: 403, title: 'This form was open too long, or was sent from another site' },
  place_taken: { status: 409, title: 'That place was taken a moment ago' },
  changed_meanwhile: { status: 409, title: 'Somebody changed this meanwhile' },
  not_an_opening: { status: 409, title: 'That is not an open place' },
  offer_ran_out: { status: 410, title: 'This offer has run out' },
  wrong_state: { status: 409, title: 'This cannot be done any more' },
  short_of_stock: { status: 409, title: 'The shelf cannot provide for that day' },
  same_key_other_request: { status: 422, title: 'This key was used for a different request' },
  too_many_requests: { status: 429, title: 'Too many requests; please wait a moment' },
  too_large: { status: 413, title: 'That is more than can be sent at once' },
  unreadable: { status: 400, title: 'The request could not be read' },
  busy: { status: 503, title: 'The studio is busy; please try again in a moment' },
  broken: { status: 500, title: 'Something broke on our side' },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

/** What a form tells beside its fields, shown again with all that was typed. */
export const TOLD_BESIDE: readonly ProblemCode[] = ['bad_input', 'changed_meanwhile'];

/** One wrong answer: the field's name (a JSON pointer is made of it) and a plain sentence. */
export interface FieldProblem {
  field: string;
  message: string;
}

/** The one exception of the program. `detail` is a plain sentence for a person. */
export class AppError extends Error {
  constructor(
    readonly code: ProblemCode,
    readonly detail: string = PROBLEMS[code].title,
    readonly fields: FieldProblem[] = [],
    /** Seconds after which it may be tried again, where that is known. */
    readonly retryAfter?: number,
  ) {
    super(`${code}: ${detail}`);
    this.name = 'AppError';
  }
  get status(): number {
    return PROBLEMS[this.code].status;
  }
}
