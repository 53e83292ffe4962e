// The first evening of an installation: whoever holds the link that was told on the console founds the studio, once.
import { Injectable } from '@nestjs/common';
import type { Account } from '../../accounts/accounts.schemas.js';
import { AccountsService } from '../../accounts/accounts.service.js';
import { passwordProblem } from '../../accounts/passwords.calc.js';
import { Clock, Random } from '../../platform/clock.js';
import { Config } from '../../platform/config.js';
import { Db } from '../../platform/db/db.js';
import { recordHistory } from '../../platform/db/history.js';
import { readInput } from '../../platform/input.js';
import { AppError, type FieldProblem } from '../../platform/problems.js';
import { derived, looksLikeToken } from '../../platform/security/tokens.js';
import { StudiosService } from '../../studios/studios.service.js';
import { placeOptions } from '../../travel/place-label.calc.js';
import { Spots } from '../../travel/spots.service.js';
import { enqueueNight } from '../../platform/jobs/night.js';
import { Jobs } from '../../platform/jobs/registry.js';
import { claimForm, STARTING_LIGHT, slugOf } from './set-up.schemas.js';

export type Claimed =
  | { ok: true; slug: string; studioId: string; secret: string }
  /** Several places of the name, to choose one of. */
  | { ok: false; problems: FieldProblem[]; places: ReturnType<typeof placeOptions> };

@Injectable()
export class ClaimService {
  constructor(
    private readonly config: Config,
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly accounts: AccountsService,
    private readonly spots: Spots,
  ) {}

  /** Where this installation is set up; null once it houses a studio. */
  async address(): Promise<string | null> {
    return (await this.db.housesAny()) ? null : `${this.config.publicUrl}/set-up/${this.token()}`;
  }

  /** @throws AppError not_found for another secret, link_used once there is a studio */
  async check(token: string): Promise<void> {
    if (!looksLikeToken(token) || token !== this.token())
      throw new AppError('not_found', 'This link is not known here. The right one is on the console.');
    if (await this.db.housesAny())
      throw new AppError('link_used', 'This Plateday is set up already. Please sign in.');
  }

  /** Founds the studio with its owner. @throws AppError not_found, link_used, bad_input */
  async claim(token: string, input: unknown, agent: string): Promise<Claimed> {
    await this.check(token);
    const told = readInput(claimForm, input);
    const about = [told.email, told.name, told.studio];
    const weak = passwordProblem(told.password, about);
    const found = this.spots.find({ place: told.place, placeId: told.placeId, zone: told.zone });
    const problems = [
      ...(weak ? [{ field: 'password', message: weak }] : []),
      ...(found.ok ? [] : found.problems),
    ];
    if (!found.ok || weak) return { ok: false, problems, places: found.ok ? [] : placeOptions(found.places) };
    const studioId = this.random.id();
    const slug = slugOf(told.studio, studioId);
    await this.db.inStudio(studioId, async (tx) => {
      if (
        !(await this.studios.foundFirst(tx, {
          id: studioId,
          slug,
          name: told.studio,
          welcome: '',
          address: told.address,
          email: told.email,
          telephone: told.telephone,
          zone: found.spot.zone,
          lat: found.spot.lat,
          lon: found.spot.lon,
          ...STARTING_LIGHT,
        }))
      )
        throw new AppError('link_used', 'This Plateday is set up already. Please sign in.');
      const { name, email, password } = told;
      const owner: Account = await this.accounts.create(tx, { role: 'owner', name, email, password });
      await enqueueNight(tx, this.jobs, this.clock);
      await recordHistory(tx, this.clock, {
        who: owner.name,
        aboutKind: 'settings',
        aboutId: studioId,
        event: 'founded the studio',
      });
    });
    const secret = await this.accounts.signIn(studioId, told.email, told.password, agent);
    return { ok: true, slug, studioId, secret };
  }

  /** From the server's key, so that the console can tell it again at each start. */
  private token(): string {
    return derived(this.config.secretKey, 'set-up', 'first', 1).toString('base64url');
  }
}
