// The page of the desk that somebody asked for before they had signed in: they are led there afterwards. Pure.

/** Below the studio's own desk only, so that nobody can be led anywhere else. */
const OF_THE_DESK = /^\/desk(\/[\w-]+)*(\?[\w=&%.:-]*)?$/;

/** As it stands in an address; null for anything that is no page of the desk. */
export const wantedPage = (to: unknown): string | null =>
  typeof to === 'string' && to.length <= 500 && OF_THE_DESK.test(to) ? to : null;

/** The address of a step of signing in that keeps in mind where they want to go. */
export const towards = (path: string, wanted: string | null): string =>
  wanted === null ? path : `${path}?to=${encodeURIComponent(wanted)}`;
