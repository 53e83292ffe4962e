// How often one address may be tried at the sign-in of a studio. Counted for addresses that nobody has as for
// those of accounts, so that the refusal tells nothing. Kept in memory: each web process counts for itself.
import { Injectable, Logger } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { AppError } from '../platform/problems.js';

const WINDOW_SECONDS = 15 * 60;
/** Of so many addresses the oldest count is dropped, since whoever tries may make addresses up. */
const MOST_ADDRESSES = 10_000;

type SignInWay = 'password' | 'link' | 'code';

const REFUSALS: Record<SignInWay, (wait: string) => string> = {
  password: (wait) => `This address was tried too often. Please wait ${wait}, or have a link mailed to you.`,
  link: (wait) => `A link was asked for too often. Please wait ${wait}; the last one mailed may still work.`,
  code: (wait) => `Too many codes were wrong. Please wait ${wait}.`,
};

@Injectable()
export class SignInLimit {
  private readonly log = new Logger('Sign-in');
  /** In the order in which their windows began. */
  private readonly counts = new Map<string, { tries: number; until: number }>();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
  ) {}

  /** Counts one try. @throws AppError too_many_requests over the limit, until a quarter of an hour is over */
  count(studioId: string, way: SignInWay, email: string): void {
    const now = this.clock.now().epochMilliseconds;
    for (const [key, { until }] of this.counts) {
      if (until > now && this.counts.size <= MOST_ADDRESSES) break;
      this.counts.delete(key);
    }
    const key = keyOf(studioId, way, email);
    const counted = this.counts.get(key) ?? { tries: 0, until: now + WINDOW_SECONDS * 1000 };
    counted.tries++;
    this.counts.set(key, counted);
    if (counted.tries <= this.config.signInTries) return;
    this.log.warn(`Studio ${studioId}: one address was tried too often, by ${way}.`);
    const wait = Math.ceil((counted.until - now) / 1000);
    throw new AppError('too_many_requests', REFUSALS[way](minutes(wait)), [], wait);
  }

  /** Whoever came in is not counted any more. */
  forget(studioId: string, way: SignInWay, email: string): void {
    this.counts.delete(keyOf(studioId, way, email));
  }
}

const keyOf = (studioId: string, way: SignInWay, email: string) =>
  `${studioId} ${way} ${email.toLowerCase()}`;

const minutes = (seconds: number) => (seconds <= 60 ? 'a minute' : `${Math.ceil(seconds / 60)} minutes`);
