// Making, opening, replacing and ending secret links. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { hashOf, type LinkPurpose, looksLikeToken, tokenOf } from '../platform/security/tokens.js';
import type { Client, Link } from './accounts.schemas.js';
import { LinksStore } from './links.store.js';

@Injectable()
export class LinksService {
  private readonly store = new LinksStore();
  private readonly known = new TogetherIn<string, Link | null>(async (tx, ids) => {
    const found = await this.store.byIds(tx, ids);
    return ids.map((id) => found.get(id) ?? null);
  });
  /** By purpose and kind. */
  private readonly live = new Map<string, TogetherIn<string, Link | null>>();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** A new link. `kind` tells feeds apart; `expiresAt` null means it stays until revoked, and is the subject's only one. */
  async make(
    tx: Tx,
    purpose: LinkPurpose,
    subjectId: string,
    expiresAt: Temporal.Instant | null,
    kind = '',
  ): Promise<Link> {
    const link = await this.insert(tx, purpose, subjectId, expiresAt, kind);
    if (!link) throw new Error(`There is a ${purpose} link of ${subjectId} already.`);
    return link;
  }

  /** The secret itself, derived; never stored, never logged. */
  token(link: Pick<Link, 'purpose' | 'id' | 'generation'>): string {
    return tokenOf(this.config.secretKey, link.purpose, link.id, link.generation);
  }

  /**
   * The link behind a token.
   * @throws AppError not_found when there is none, link_expired, link_used
   */
  async open(tx: Tx, purpose: LinkPurpose, token: string): Promise<Link> {
    const link = looksLikeToken(token) ? await this.store.byHash(tx, purpose, hashOf(token)) : null;
    if (!link)
      throw new AppError('not_found', 'This link is not known here. Please check that it was copied whole.');
    const now = this.clock.now();
    if (link.revokedAt || (link.expiresAt && link.expiresAt.epochMilliseconds <= now.epochMilliseconds))
      throw new AppError('link_expired');
    if (link.usedAt) throw new AppError('link_used');
    return link;
  }

  /** Uses a once-only link up. @throws AppError link_used when somebody was faster */
  async use(tx: Tx, link: Link): Promise<void> {
    if (!(await this.store.use(tx, link.id, this.clock.now()))) throw new AppError('link_used');
  }

  byId(tx: Tx, id: string): Promise<Link | null> {
    return this.known.ask(tx, id);
  }

  /** The newest link of a subject that is neither revoked nor expired, or null. */
  find(tx: Tx, purpose: LinkPurpose, subjectId: string, kind = ''): Promise<Link | null> {
    const all = `${purpose} ${kind}`;
    let live = this.live.get(all);
    if (!live) {
      live = new TogetherIn(async (on, subjects) => {
        const found = await this.store.live(on, purpose, kind, subjects, this.clock.now());
        return subjects.map((subject) => found.get(subject) ?? null);
      });
      this.live.set(all, live);
    }
    return live.ask(tx, subjectId);
  }

  /** The same, made when there is none. Two at once make one: the second waits for the first, and finds it. */
  async ensure(tx: Tx, purpose: LinkPurpose, subjectId: string, kind = ''): Promise<Link> {
    const link =
      (await this.find(tx, purpose, subjectId, kind)) ??
      (await this.insert(tx, purpose, subjectId, null, kind)) ??
      (await this.find(tx, purpose, subjectId, kind));
    if (!link) throw new Error(`The ${purpose} link of ${subjectId} was ended while it was made.`);
    return link;
  }

  async setExpiry(tx: Tx, purpose: LinkPurpose, subjectId: string, at: Temporal.Instant): Promise<void> {
    await this.store.setExpiry(tx, purpose, subjectId, at);
  }

  /** The feeds of a subject that were not ended, the oldest first. */
  feeds(tx: Tx, subjectId: string): Promise<Link[]> {
    return this.store.staying(tx, 'feed', subjectId);
  }

  /** A further feed; null where the subject has one of that kind and name already. */
  async makeFeed(tx: Tx, subjectId: string, kind: string, name: string): Promise<Link | null> {
    return this.insert(tx, 'feed', subjectId, null, kind, name);
  }

  /** A new feed in the place of another, of the same kind and name; whoever asks for the old one is told that it ended. */
  async renewFeed(tx: Tx, feed: Link): Promise<Link> {
    await this.revoke(tx, feed);
    const next = await this.insert(tx, 'feed', feed.subjectId, null, feed.kind, feed.name);
    if (!next) throw new Error(`The feed ${feed.id} was made anew twice at once.`);
    return next;
  }

  /** The newest links of several subjects, by subject, whether they have run out or not. */
  async newest(tx: Tx, purpose: LinkPurpose, subjectIds: string[]): Promise<Map<string, Link>> {
    const links = await this.store.newest(tx, purpose, subjectIds);
    return new Map(links.map((link) => [link.subjectId, link]));
  }

  /** Ends the old token and begins a new one for the same link. */
  async replace(tx: Tx, link: Link): Promise<Link> {
    const next = { ...link, generation: link.generation + 1 };
    await this.store.replace(tx, link.id, next.generation, hashOf(this.token(next)));
    return next;
  }

  /** Notes when a link was last fetched, and by what. */
  async fetched(tx: Tx, linkId: string, at: Temporal.Instant, by: Client): Promise<void> {
    await this.store.fetched(tx, linkId, at, by);
  }

  async revoke(tx: Tx, link: Link): Promise<void> {
    await this.store.revoke(tx, link.id, this.clock.now());
  }

  /** Takes all links of some subjects away, as if they had never been made. */
  async forget(tx: Tx, subjectIds: string[]): Promise<void> {
    await this.store.deleteOf(tx, subjectIds);
  }

  /** Ends every link of a purpose that a subject has. */
  async revokeAll(tx: Tx, purpose: LinkPurpose, subjectId: string): Promise<void> {
    await this.store.revokeAll(tx, purpose, subjectId, this.clock.now());
  }

  /** Null when the subject has such a link already. */
  private async insert(
    tx: Tx,
    purpose: LinkPurpose,
    subjectId: string,
    expiresAt: Temporal.Instant | null,
    kind: string,
    name = '',
  ): Promise<Link | null> {
    const id = this.random.id();
    const unused = { usedAt: null, revokedAt: null, fetchedAt: null, fetchedBy: '' as const };
    const link: Link = { id, purpose, subjectId, kind, name, generation: 1, expiresAt, ...unused };
    const made = await this.store.insert(tx, link, hashOf(this.token(link)), this.clock.now());
    return made ? link : null;
  }
}

/** In a secret's place in the address of the one feed that needs none. */
export const PUBLIC_FEED = 'teaching-days';

/** Where a feed with this secret is fetched. */
export const feedPath = (slug: string, token: string) => `/s/${slug}/calendar/${token}.ics`;
