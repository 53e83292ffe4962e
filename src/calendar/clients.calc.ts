// What kind of program came for a feed, by what it says of itself (RFC 9110 10.1.5 User-Agent), so that somebody can tell
// their own phone from a stranger's program. Which words programs send is from memory; none of them is shown.
import type { Client } from '../accounts/accounts.schemas.js';

/** Asked in this order, since many name others too: a web calendar's fetcher says that it is like a browser. */
const SAYS: [Client, RegExp][] = [
  [
    'service',
    /\b(google|yahoo|exchange|nextcloud|owncloud|zapier|bot|spider|crawler|fetcher)\b|importer|-cloud/i,
  ],
  ['phone', /\b(iphone|ipad|ios|android|dataaccessd|icsx5|davx5|mobile)\b/i],
  [
    'computer',
    /\b(thunderbird|lightning|evolution|kalendar|korganizer|khal|vdirsyncer|calendaragent|calendar agent|outlook|macos|calcurse|gnome)\b/i,
  ],
  ['browser', /\bmozilla\b/i],
  ['computer', /\b(mac os x|windows|linux|x11)\b/i],
];

/** @param userAgent as sent; anything may stand there, or nothing */
export function clientOf(userAgent: string | undefined): Client {
  const said = (userAgent ?? '').slice(0, 500);
  return SAYS.find(([, words]) => words.test(said))?.[0] ?? 'other';
}

const WORDS: Record<Client, string> = {
  phone: 'a phone or tablet',
  computer: 'a calendar program on a computer',
  service: 'a calendar on the web, by its own servers',
  browser: 'a web browser',
  other: 'a program that does not say what it is',
};

/** "a phone or tablet"; '' before anything came. */
export const clientInWords = (client: Client | ''): string => (client === '' ? '' : WORDS[client]);
