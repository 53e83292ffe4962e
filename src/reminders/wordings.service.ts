// The owner's own words for letters: reading them, keeping a version, going back, and how a letter reads with them.
import { Injectable } from '@nestjs/common';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Language } from '../words/languages.js';
import { studioFacts } from './letter-facts.calc.js';
import { LETTER_KINDS } from './letters.schemas.js';
import { exampleOf } from './wording-example.calc.js';
import { type Example, ourWording, problemsOf, wordedAs } from './wordings.calc.js';
import {
  backForm,
  type OwnWording,
  type WordedKind,
  type WordingVersion,
  wordingForm,
} from './wordings.schemas.js';
import { WordingsStore } from './wordings.store.js';

export interface Worded {
  ours: { subject: string; body: string };
  /** All versions, the newest first; it holds. */
  versions: WordingVersion[];
  example: Example;
  /** Nobody real is in the example. */
  invented: boolean;
}

const OF_SITTINGS = LETTER_KINDS.filter((kind) => !/teaching|owner|sign-in/.test(kind));
const OF_TEACHING = LETTER_KINDS.filter((kind) => kind.startsWith('teaching'));

@Injectable()
export class WordingsService {
  private readonly store = new WordingsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
  ) {}

  /** What a letter takes along: the owner's words for it in its language, as they are now. */
  async attached(tx: Tx, kind: string, snapshot: unknown): Promise<{ wording?: OwnWording }> {
    const { language = 'en' } = snapshot as { language?: Language };
    const worded = wordedAs(kind, snapshot);
    const newest = worded === null ? null : await this.store.inForce(tx, worded, language);
    if (!newest || newest.body === '') return {};
    const { version, subject, body } = newest;
    return { wording: { kind: newest.kind, version, subject, body } };
  }

  /** The newest version of each kind and language that ever had one. */
  all(studioId: string): Promise<WordingVersion[]> {
    return this.db.inStudio(studioId, (tx) => this.store.newest(tx));
  }

  of(studioId: string, kind: WordedKind, language: Language): Promise<Worded> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = studioFacts(await this.studios.load(tx));
      const change = kind.startsWith('teaching: ') ? kind.slice('teaching: '.length) : '';
      const mailKind = change === '' ? kind : /^reminder/.test(change) ? `teaching ${change}` : 'teaching';
      const kinds = change === '' ? OF_SITTINGS : OF_TEACHING;
      const told = (await this.store.told(tx, kinds, { kind: mailKind, change })) as object | null;
      const example = exampleOf(kind, studio, told);
      const versions = await this.store.of(tx, kind, language);
      return { ours: ourWording(example, language), versions, example, invented: told === null };
    });
  }

  /** Checks an owner's words without keeping them. @throws AppError bad_input with a sentence per field */
  check(kind: WordedKind, input: unknown): OwnWording {
    const { subject, body, seen } = readInput(wordingForm, input);
    const problems = problemsOf(kind, { subject, body });
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
    return { kind, version: seen + 1, subject, body };
  }

  /** @throws AppError bad_input, changed_meanwhile where somebody else has kept a version since the form was shown */
  async keep(
    studioId: string,
    who: Account,
    kind: WordedKind,
    language: Language,
    input: unknown,
  ): Promise<void> {
    const words = this.check(kind, input);
    await this.db.inStudio(studioId, (tx) => this.add(tx, who, language, words));
  }

  /** Puts an older version in force again, or ours. @throws AppError bad_input, not_found */
  async goBack(
    studioId: string,
    who: Account,
    kind: WordedKind,
    language: Language,
    input: unknown,
  ): Promise<void> {
    const { version } = readInput(backForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const versions = await this.store.of(tx, kind, language);
      const older = versions.find((one) => one.version === version);
      if (version !== 0 && !older) throw new AppError('not_found', 'This version is not known here.');
      const [newest] = versions;
      const { subject, body } = older ?? { subject: '', body: '' };
      if ((newest?.subject ?? '') === subject && (newest?.body ?? '') === body) return;
      await this.add(tx, who, language, { kind, version: (newest?.version ?? 0) + 1, subject, body });
    });
  }

  private async add(tx: Tx, who: Account, language: Language, words: OwnWording): Promise<void> {
    const [newest] = await this.store.of(tx, words.kind, language);
    const next = (newest?.version ?? 0) + 1;
    const one = { ...words, language, since: this.clock.now(), who: who.name };
    if (next !== words.version || !(await this.store.keep(tx, one)))
      throw new AppError(
        'changed_meanwhile',
        'Somebody else has kept other words for this letter meanwhile.',
      );
    const note = `${words.kind}, ${language}, version ${words.version}`;
    const about = { aboutKind: 'studio', aboutId: tx.studioId };
    await recordHistory(tx, this.clock, { who: who.name, ...about, event: 'letter words', note });
  }
}
