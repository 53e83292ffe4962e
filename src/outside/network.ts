// The way out: how names are found, which addresses and ports may be asked, and how much is waited for and taken. It is a
// thing of its own, so that a test can hand in its resolver and let its own server in.
import { lookup } from 'node:dns/promises';
import { Injectable } from '@nestjs/common';
import { isPublicAddress } from './public-address.js';

@Injectable()
export class Network {
  ports: readonly number[] = [80, 443];
  mostBytes = 2 * 1024 * 1024;
  /** Milliseconds for all of it, redirects included, and for silence in between. */
  mostTime = 10_000;
  mostSilence = 5_000;
  mostRedirects = 3;

  isAllowed(address: string): boolean {
    return isPublicAddress(address);
  }

  /** Every address of a name. @throws Error when there is none */
  async resolve(name: string): Promise<string[]> {
    return (await lookup(name, { all: true })).map(({ address }) => address);
  }
}
