// Who works at a studio: the owner invites an assistant, who opens the link, says their name and chooses a password.
import { Injectable } from '@nestjs/common';
import { hash } from '@node-rs/argon2';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Account, invitationForm, joinForm } from './accounts.schemas.js';
import { AccountsStore } from './accounts.store.js';
import { LinksService } from './links.service.js';
import { passwordProblem } from './passwords.calc.js';
import { SecondFactorService } from './second-factor.service.js';
import { SignInsService } from './sign-ins.service.js';

export const INVITATION_DAYS = 7;

/** Somebody who works here, or is invited to. */
export interface Colleague {
  account: Account;
  joined: boolean;
  factorOn: boolean;
  /** The secret of an invitation that is still good; null for none. */
  invitation: string | null;
}

@Injectable()
export class InvitationsService {
  private readonly store = new AccountsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly links: LinksService,
    private readonly sessions: SignInsService,
    private readonly factor: SecondFactorService,
  ) {}

  async colleagues(studioId: string): Promise<Colleague[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const all: Colleague[] = [];
      for (const one of await this.store.all(tx)) {
        const link = one.joined ? null : await this.links.find(tx, 'invitation', one.account.id);
        all.push({
          ...one,
          factorOn: await this.factor.isOn(tx, one.account.id),
          invitation: link && !link.usedAt ? this.links.token(link) : null,
        });
      }
      return all;
    });
  }

  /** Mails a link that is good for a week. @throws AppError bad_input, also for an address that works here already */
  async invite(studioId: string, by: Account, input: unknown): Promise<void> {
    const { name, email } = readInput(invitationForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      if (await this.store.byEmail(tx, email))
        throw new AppError('bad_input', undefined, [
          { field: 'email', message: 'Somebody with this address works here already, or is invited.' },
        ]);
      const account: Account = { id: this.random.id(), role: 'assistant', name, email };
      await this.store.insert(tx, account, null, this.clock.now());
      await this.sendLink(tx, account);
      await this.record(tx, by, account, 'invited');
    });
  }

  /** A new link for somebody who has not come in yet; the old one stops. @throws AppError not_found, wrong_state */
  async again(studioId: string, by: Account, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const account = await this.assistant(tx, id);
      if ((await this.store.byEmail(tx, account.email))?.passwordHash) throw new AppError('wrong_state');
      await this.links.revokeAll(tx, 'invitation', account.id);
      await this.sendLink(tx, account);
      await this.record(tx, by, account, 'invited again');
    });
  }

  /** Takes somebody's way in away: sessions, password and links end at once. @throws AppError not_found */
  async remove(studioId: string, by: Account, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const account = await this.assistant(tx, id);
      await this.links.revokeAll(tx, 'invitation', account.id);
      await this.links.revokeAll(tx, 'sign-in', account.id);
      await this.links.revokeAll(tx, 'feed', account.id);
      await this.store.delete(tx, account.id);
      await this.record(tx, by, account, 'removed');
    });
  }

  /** For an assistant who lost phone and recovery codes. @throws AppError not_found */
  async turnOffFactor(studioId: string, by: Account, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const account = await this.assistant(tx, id);
      await this.factor.turnOff(tx, account.id);
      await this.record(tx, by, account, 'second step turned off');
    });
  }

  /** Who is invited by a link; changes nothing. @throws AppError not_found, link_expired, link_used */
  async invited(studioId: string, token: string): Promise<Account> {
    return this.db.inStudio(studioId, async (tx) => this.behind(tx, token));
  }

  /** @returns the secret of their first session. @throws AppError bad_input, not_found, link_expired, link_used */
  async join(studio: Studio, token: string, input: unknown, agent: string): Promise<string> {
    const { name, password } = readInput(joinForm, input);
    const account = await this.invited(studio.id, token);
    const problem = passwordProblem(password, [account.email, name, studio.name]);
    if (problem) throw new AppError('bad_input', undefined, [{ field: 'password', message: problem }]);
    const hashed = await hash(password);
    return this.db.inStudio(studio.id, async (tx) => {
      const link = await this.links.open(tx, 'invitation', token);
      await this.links.use(tx, link);
      await this.store.rename(tx, account.id, name);
      await this.store.setPassword(tx, account.id, hashed);
      await this.record(tx, { ...account, name }, { ...account, name }, 'joined');
      return this.sessions.begin(tx, account.id, agent, false);
    });
  }

  private async behind(tx: Tx, token: string): Promise<Account> {
    const link = await this.links.open(tx, 'invitation', token);
    const account = await this.store.byId(tx, link.subjectId);
    if (!account) throw new AppError('not_found');
    return account;
  }

  private async sendLink(tx: Tx, account: Account): Promise<void> {
    const expires = this.clock.now().add({ hours: 24 * INVITATION_DAYS });
    const link = await this.links.make(tx, 'invitation', account.id, expires);
    await this.jobs.enqueue(tx, 'sign-in.asked', { linkId: link.id }, { key: link.id });
  }

  private async assistant(tx: Tx, id: string): Promise<Account> {
    const account = await this.store.byId(tx, id);
    if (account?.role !== 'assistant') throw new AppError('not_found', 'Nobody of that name works here.');
    return account;
  }

  private record(tx: Tx, by: Account, about: Account, event: string): Promise<void> {
    return recordHistory(tx, this.clock, {
      who: by.name,
      aboutKind: 'account',
      aboutId: about.id,
      event,
      note: about.name,
    });
  }
}
