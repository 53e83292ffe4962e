// The only places where the program meets real time and real chance; everything else is handed these.
import { randomBytes, randomUUID } from 'node:crypto';
import { Temporal } from 'temporal-polyfill';

export abstract class Clock {
  abstract now(): Temporal.Instant;
}

export class SystemClock extends Clock {
  now(): Temporal.Instant {
    return Temporal.Instant.fromEpochMilliseconds(Date.now());
  }
}

export abstract class Random {
  /** Cryptographically strong bytes, for keys and tokens. */
  abstract bytes(count: number): Buffer;
  /** A new row id (version 4 UUID). Never a secret: it has fewer than 128 random bits. */
  abstract id(): string;
}

export class SystemRandom extends Random {
  bytes(count: number): Buffer {
    return randomBytes(count);
  }
  id(): string {
    return randomUUID();
  }
}
