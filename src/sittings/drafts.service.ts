// Asking for a sitting step by step: what was typed is kept from the first step on, behind a secret in the address,
// and becomes a request once, however often it is sent.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { type Draft, endDraft, keepDraft, openDraft, saveDraft, type Typed } from '../platform/drafts.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RequestsService } from './requests.service.js';

/** What is typed so far and what is wrong with it, or the secret of the own page of the request that it became. */
export type Found = { answers: Typed; problems: FieldProblem[] } | { place: string };

/** How the answers of the form are read as a request. */
type Reading = (answers: Typed) => Record<string, unknown>;

@Injectable()
export class DraftsService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly links: LinksService,
    private readonly requests: RequestsService,
  ) {}

  /** Keeps the first answers. @returns the secret of the draft, and what is wrong with them */
  async begin(
    studioId: string,
    answers: Typed,
    read: Reading,
  ): Promise<{ token: string; problems: FieldProblem[] }> {
    const token = this.random.bytes(32).toString('base64url');
    const problems = await this.db.inStudio(studioId, async (tx) => {
      await keepDraft(tx, { id: this.random.id(), token, answers, at: this.clock.now() });
      return this.requests.check(tx, read(answers));
    });
    return { token, problems };
  }

  /**
   * What is behind a secret; with `change` the answers are changed first, as long as nothing was sent.
   * @throws AppError not_found
   */
  open(studioId: string, token: string, read: Reading, change?: (answers: Typed) => Typed): Promise<Found> {
    return this.db.inStudio(studioId, async (tx) => {
      const draft = await this.draft(tx, token);
      if (draft.sittingId !== null) return { place: await this.place(tx, draft.sittingId) };
      const answers = change ? change(draft.answers) : draft.answers;
      if (change) await saveDraft(tx, draft.id, answers, this.clock.now());
      return { answers, problems: await this.requests.check(tx, read(answers)) };
    });
  }

  /** Sends it: it becomes a request, once. What is wrong with it is told instead. @throws AppError not_found */
  send(studioId: string, token: string, read: Reading): Promise<Found> {
    return this.db.inStudio(studioId, async (tx) => {
      const { id, answers, sittingId: before } = await this.draft(tx, token);
      if (before !== null) return { place: await this.place(tx, before) };
      const problems = await this.requests.check(tx, read(answers));
      if (problems.length > 0) return { answers, problems };
      const { sittingId } = await this.requests.askIn(tx, read(answers));
      await endDraft(tx, id, sittingId);
      return { place: await this.place(tx, sittingId) };
    });
  }

  private async draft(tx: Tx, token: string): Promise<Draft> {
    const draft = await openDraft(tx, token);
    if (!draft)
      throw new AppError(
        'not_found',
        'What was begun here is not kept any more, or the address is not whole. Please begin anew.',
      );
    return draft;
  }

  private async place(tx: Tx, sittingId: string): Promise<string> {
    const link = await this.links.find(tx, 'place', sittingId);
    if (!link) throw new AppError('link_expired');
    return this.links.token(link);
  }
}
