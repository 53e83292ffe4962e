// What people agree to: asking, noting and taking back each yes, and the owner's words with all their versions.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import {
  type ConsentLine,
  consentLines,
  type Purpose,
  type Worded,
  type Wording,
  wordingsInForce,
} from './consents.calc.js';
import { consentForm, type KeptWording, wordsForm } from './consents.schemas.js';
import { ConsentsStore } from './consents.store.js';
import type { SittingView } from './sittings.schemas.js';
import { SittingViews } from './views.service.js';
import { PURPOSE_WORDS } from './words.calc.js';

type Who = { name: string };
/** By their own page, or by somebody of the studio to whom they said it. */
export type By = { token: string } | { who: Who; sittingId: string };

export interface Words {
  inForce: Record<Worded, Wording>;
  /** All versions that are kept, the newest first. */
  kept: KeptWording[];
}

@Injectable()
export class ConsentsService {
  private readonly store = new ConsentsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly views: SittingViews,
  ) {}

  /** The words of the studio. */
  words(studioId: string): Promise<Words> {
    return this.db.inStudio(studioId, async (tx) => {
      const kept = await this.store.wordings(tx);
      return { inForce: wordingsInForce(kept), kept };
    });
  }

  /** What everybody of a request is asked, and has agreed to. @throws AppError not_found */
  lines(studioId: string, by: { token: string } | { sittingId: string }): Promise<ConsentLine[]> {
    return this.db.inStudio(studioId, async (tx) => this.linesOf(tx, await this.viewBy(tx, by)));
  }

  /** What became of the latest yes of some sitters: null while it holds. Who never said it is not in it. */
  async said(
    tx: Tx,
    sitterIds: string[],
  ): Promise<{ sitterId: string; purpose: Purpose; withdrawnAt: Temporal.Instant | null }[]> {
    const latest = new Map(
      (await this.store.said(tx, sitterIds)).map((row) => [`${row.sitter_id} ${row.purpose}`, row]),
    );
    return [...latest.values()].map((row) => ({
      sitterId: row.sitter_id,
      purpose: row.purpose,
      withdrawnAt: row.withdrawn_at,
    }));
  }

  private async linesOf(tx: Tx, view: SittingView): Promise<ConsentLine[]> {
    const inForce = wordingsInForce(await this.store.wordings(tx));
    return consentLines(view, inForce, await this.store.of(tx, view.contact.id));
  }

  /**
   * Notes a yes with the version that was read, or takes it back. The same once more is no mistake.
   * @throws AppError bad_input; wrong_state when the words were changed since they were read; not_found
   */
  async answer(studioId: string, by: By, input: unknown): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const view = await this.viewBy(tx, by);
      const press = readInput(consentForm, input);
      const line = (await this.linesOf(tx, view)).find(
        (one) => one.sitterId === press.sitter && one.purpose === press.purpose,
      );
      if (!line) throw new AppError('not_found', 'This is not asked here.');
      const name = 'who' in by ? by.who.name : 'contact';
      if (press.answer === 'withdraw') {
        if (!line.live || !(await this.store.withdraw(tx, line.live.id, this.clock.now(), name))) return;
      } else {
        if (line.live) return;
        await this.give(tx, view, line, { version: press.version, name, told: 'who' in by });
      }
      const event = press.answer === 'agree' ? 'consent' : 'consent_back';
      const about = { aboutKind: 'sitting', aboutId: view.sitting.id };
      const note = `${line.name}: ${PURPOSE_WORDS[press.purpose]}, version ${press.version}`;
      await recordHistory(tx, this.clock, { who: name, ...about, event, note });
    });
  }

  private async give(
    tx: Tx,
    { contact }: SittingView,
    { sitterId, purpose, wording }: ConsentLine,
    { version, name, told }: { version: number; name: string; told: boolean },
  ): Promise<void> {
    if (version !== wording.version || wording.words === '')
      throw new AppError('wrong_state', 'These words were changed in the meantime; please read them again.');
    const givenAt = this.clock.now();
    await this.store.keep(tx, wording, givenAt, 'standard');
    const givenHow = told ? 'told' : 'page';
    const id = this.random.id();
    await this.store.give(tx, contact.id, {
      id,
      sitterId,
      purpose,
      version,
      givenAt,
      givenHow,
      givenBy: name,
    });
  }

  /**
   * Notes what somebody agreed to on the telephone while their request was typed in: to be written to for themselves,
   * the rest only where they sit; others who sit are asked by themselves.
   * @throws AppError bad_input at `consents`
   */
  async told(
    tx: Tx,
    who: Who,
    sittingId: string,
    agreed: { purpose: Purpose; version: number }[],
  ): Promise<void> {
    if (agreed.length === 0) return;
    const view = await this.viewBy(tx, { sittingId });
    const own = view.sitters.find((one) => one.name === view.contact.name)?.id;
    const lines = await this.linesOf(tx, view);
    for (const { purpose, version } of agreed) {
      const sitterId = purpose === 'contact' ? null : own;
      if (sitterId === undefined)
        throw wrong('Whoever rings does not sit: those who do are asked once a place is offered.');
      const line = lines.find((one) => one.sitterId === sitterId && one.purpose === purpose);
      if (!line || line.wording.version !== version || line.wording.words === '')
        throw wrong('These words were changed in the meantime; please read the new ones out.');
      await this.give(tx, view, line, { version, name: who.name, told: true });
      const about = { aboutKind: 'sitting', aboutId: sittingId, event: 'consent' };
      const note = `${line.name}: ${PURPOSE_WORDS[purpose]}, version ${version}`;
      await recordHistory(tx, this.clock, { who: who.name, ...about, note });
    }
  }

  /**
   * New words for something: a further version. What was agreed to before stays agreed to, in its own words.
   * @throws AppError bad_input; wrong_state when they were changed since this form was opened
   */
  async rewrite(studioId: string, who: Who, input: unknown): Promise<void> {
    const { purpose, version, words } = readInput(wordsForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const before = wordingsInForce(await this.store.wordings(tx))[purpose];
      if (before.version === version && before.words === words) return;
      const at = this.clock.now();
      await this.store.keep(tx, before, at, 'standard');
      const further = { purpose, version: version + 1, words };
      if (before.version !== version || !(await this.store.keep(tx, further, at, who.name)))
        throw new AppError('wrong_state', 'These words were changed in the meantime; please look again.');
      const about = {
        aboutKind: 'settings',
        aboutId: studioId,
        event: 'words',
        note: `New words: ${PURPOSE_WORDS[purpose]}.`,
      };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  private async viewBy(tx: Tx, by: { token: string } | { sittingId: string }): Promise<SittingView> {
    const id = 'token' in by ? (await this.links.open(tx, 'place', by.token)).subjectId : by.sittingId;
    return this.views.byId(tx, await this.studios.load(tx), id);
  }
}

const wrong = (message: string) => new AppError('bad_input', undefined, [{ field: 'consents', message }]);
