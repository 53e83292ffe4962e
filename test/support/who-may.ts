// Whose each door is. A new route needs a row here before test/http/who-may.spec.ts passes.

export type Whose =
  /** Open to all. */
  | 'anyone'
  /** Behind a secret in the address: without it nobody gets through, whoever they are. */
  | 'link'
  /** Owner and assistant of this studio. */
  | 'staff'
  /** The owner of this studio. */
  | 'owner';

export const WHO_MAY: Record<string, Whose> = {
  'GET /': 'anyone',
  'GET /daylight': 'anyone',
  'GET /healthz': 'anyone',
  'GET /problems': 'anyone',
  'GET /s/:slug': 'anyone',
  'GET /s/:slug/ask': 'anyone',
  'POST /s/:slug/ask': 'anyone',
  'GET /s/:slug/sign-in': 'anyone',
  'POST /s/:slug/sign-in': 'anyone',
  'POST /s/:slug/sign-in/link': 'anyone',
  'POST /s/:slug/sign-out': 'anyone',
  'GET /s/:slug/sign-in/:token': 'link',
  'POST /s/:slug/sign-in/:token': 'link',
  'GET /s/:slug/place/:token': 'link',
  'POST /s/:slug/place/:token/give-up': 'link',
  'GET /s/:slug/calendar/:file': 'link',
  'GET /s/:slug/desk': 'staff',
  'GET /s/:slug/desk/shelf': 'owner',
  'GET /s/:slug/desk/mail': 'owner',
  'GET /s/:slug/desk/mail/:id': 'owner',
  'GET /s/:slug/desk/calendar': 'owner',
  'POST /s/:slug/desk/calendar': 'owner',
  'GET /s/:slug/desk/light': 'owner',
  'GET /s/:slug/desk/light/:when': 'owner',
  'GET /s/:slug/desk/light/notes': 'owner',
  'POST /s/:slug/desk/light/notes': 'owner',
  'POST /s/:slug/desk/light/notes/:id/remove': 'owner',
  'GET /s/:slug/desk/prepare': 'staff',
  'POST /s/:slug/desk/prepare/tick': 'staff',
  'POST /s/:slug/desk/prepare/move': 'staff',
  'POST /s/:slug/desk/prepare/day': 'staff',
  'GET /s/:slug/desk/prepare/rules': 'owner',
  'POST /s/:slug/desk/prepare/rules/new': 'owner',
  'POST /s/:slug/desk/prepare/rules/:id': 'owner',
  'POST /s/:slug/desk/prepare/rules/:id/remove': 'owner',
  'POST /s/:slug/desk/prepare/takes': 'owner',
  'GET /s/:slug/desk/requests/:id': 'owner',
  'POST /s/:slug/desk/requests/:id/approve': 'owner',
  'POST /s/:slug/desk/requests/:id/decline': 'owner',
  'POST /s/:slug/desk/requests/:id/sitters': 'owner',
  'GET /s/:slug/desk/settings': 'owner',
  'GET /s/:slug/desk/settings/:section': 'owner',
  'POST /s/:slug/desk/settings/:section/preview': 'owner',
  'POST /s/:slug/desk/settings/:section/again': 'owner',
  'POST /s/:slug/desk/settings/:section/confirm': 'owner',

  'GET /api/openapi.json': 'anyone',
  'GET /api/v1/daylight': 'anyone',
  'GET /api/v1/places': 'anyone',
  'GET /api/v1/s/:slug/openings': 'anyone',
  'POST /api/v1/s/:slug/requests': 'anyone',
  'POST /api/v1/s/:slug/sessions': 'anyone',
  'GET /api/v1/s/:slug/place/:token': 'link',
  'POST /api/v1/s/:slug/place/:token/give-up': 'link',
  'DELETE /api/v1/s/:slug/sessions/current': 'staff',
  'GET /api/v1/s/:slug/requests': 'owner',
  'POST /api/v1/s/:slug/requests/:id/approve': 'owner',
  'POST /api/v1/s/:slug/requests/:id/decline': 'owner',
  'GET /api/v1/s/:slug/settings': 'owner',
  'PUT /api/v1/s/:slug/settings': 'owner',
};
