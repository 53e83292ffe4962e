// Formulas of a studio: taking one from the starter library, writing an own one, changing one, and saying what is
// mixed by it. A change is a further version; items mixed by it get its days of ripening and keeping.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { hazardsOf } from '../chemistry/hazards.calc.js';
import { noteForTetrahydrate } from '../chemistry/starter-collodions.calc.js';
import { starterFormula } from '../chemistry/starter-formulas.calc.js';
import type { StarterFormula, StarterLine } from '../chemistry/starter-lines.calc.js';
import { asOtherCadmiumBromide, SUBSTANCES, substanceOf } from '../chemistry/substances.calc.js';
import { formatQuantity, parseQuantity } from '../lib/quantity-text.js';
import { Clock, Random } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { ActsService, type Key, type Who } from './acts.service.js';
import { cyanideMeetsAcid, itemFor, liquidOf, readLine, typedLines, unchanged } from './formulas.calc.js';
import {
  type Formula,
  type FormulaLine,
  type FormulaText,
  formulaForm,
  takeForm,
} from './formulas.schemas.js';
import { FormulasStore } from './formulas.store.js';
import { ItemsStore } from './items.store.js';
import type { Item, NewItem } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { amountProblem } from './words.calc.js';

const entered = z.object({ formulaId: z.uuid() });
/** `instead`: the formula by which the item was mixed before. */
const taken = z.object({ formulaId: z.uuid(), instead: z.uuid().nullable().default(null) });
type Sent = Record<string, unknown>;

/** Days until a chemical that is bought anew has come. Assumption; the owner's to change. */
const LEAD_DAYS = 14;

const unknown = () => new AppError('not_found', 'This formula is not known here.');

@Injectable()
export class FormulasService {
  private readonly store = new FormulasStore();
  private readonly itemsStore = new ItemsStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  /**
   * Takes a formula of the starter library into the studio. What it is mixed of and is not kept here yet is put on
   * the list of things kept, empty; the item named, or a new one, is mixed by it from now on, or nothing yet.
   * @throws AppError not_found, bad_input, wrong_state when it is here already
   */
  take(studioId: string, who: Who, input: unknown, key?: Key): Promise<z.output<typeof taken>> {
    const { starterKey, bromide, itemId } = readInput(takeForm, input);
    const starter = starterFormula(starterKey);
    if (!starter) throw new AppError('not_found', 'This formula is not in the library.');
    return this.acts.perform(studioId, { name: 'take formula', key, request: input }, taken, async (tx) => {
      const all = await this.store.all(tx);
      if (all.some((one) => one.starterKey === starterKey && !one.archived))
        throw new AppError('wrong_state', 'This formula is among yours already.');
      const items = await this.stock.items(tx);
      const item = items.find(({ id }) => id === itemId);
      const study = itemId === 'study';
      if (itemId !== null && !study && !(item && canBeMixed(item, starter.kind)))
        throw new AppError('bad_input', undefined, [
          { field: 'itemId', message: 'This cannot be mixed by it.' },
        ]);
      const lines = await this.lines(
        tx,
        starter.lines.map((line) => ofBromide(line, bromide)),
        items,
      );
      const { kind, name } = starter;
      const formula = { id: this.random.id(), kind, name, own: false, starterKey } as const;
      const text = textOf(starter, lines);
      if (bromide === 'tetrahydrate') text.note = noteForTetrahydrate(text.note);
      await this.add(tx, who, formula, text);
      const mixed = study ? null : (item ?? (await this.stock.enterItem(tx, newSolution(starter))));
      if (mixed) await this.mixBy(tx, { ...formula, currentVersion: 1, archived: false }, [mixed.id]);
      await this.record(tx, who, formula.id, 'take');
      return { formulaId: formula.id, instead: item?.formulaId ?? null };
    });
  }

  /** Enters a formula of the owner's own. @throws AppError bad_input with a sentence per field */
  create(studioId: string, who: Who, sent: Sent, key?: Key): Promise<z.output<typeof entered>> {
    return this.acts.perform(studioId, { name: 'new formula', key, request: sent }, entered, async (tx) => {
      const { name, kind, text } = await this.read(tx, sent);
      const formula = { id: this.random.id(), kind, name, own: true, starterKey: null };
      await this.add(tx, who, formula, text);
      await this.record(tx, who, formula.id, 'write');
      return { formulaId: formula.id };
    });
  }

  /**
   * A further version, which is current from now on. `sent.basedOn` is the version that the form was filled with;
   * a form that comes back as it was filled makes none.
   * @throws AppError bad_input, not_found, wrong_state when somebody else has changed it since
   */
  change(studioId: string, who: Who, formulaId: string, sent: Sent): Promise<{ changed: boolean }> {
    const doing = { name: 'change formula', key: undefined, request: null };
    return this.acts.perform(studioId, doing, z.object({ changed: z.boolean() }), async (tx) => {
      const formula = await this.store.locked(tx, formulaId);
      if (!formula) throw unknown();
      if (String(sent.basedOn) !== String(formula.currentVersion))
        throw new AppError('wrong_state', 'It was changed in the meantime. Please look at it first.');
      const [before] = await this.store.versions(tx, formulaId);
      if (!before) throw unknown();
      if (unchanged(sent, formula, before)) return { changed: false };
      const { name, text } = await this.read(tx, { ...sent, kind: formula.kind });
      if (text.batch === before.batch && text.batchAsWritten === formatQuantity(before.batch, 'uL', 'exact'))
        text.batchAsWritten = before.batchAsWritten;
      const changed = { ...formula, name, currentVersion: formula.currentVersion + 1 };
      const version = {
        ...text,
        version: changed.currentVersion,
        createdAt: this.clock.now(),
        who: who.name,
      };
      await this.store.insertVersion(tx, formulaId, version);
      await this.store.update(tx, changed);
      const mixed = (await this.stock.items(tx)).filter((item) => item.formulaId === formulaId);
      const ids = mixed.map((item) => item.id);
      await this.mixBy(tx, changed, ids);
      await this.record(tx, who, formulaId, 'change');
      return { changed: true };
    });
  }

  /** What is mixed by it: these items, and no others any more. @throws AppError not_found, bad_input */
  setItems(studioId: string, who: Who, formulaId: string, itemIds: string[]): Promise<null> {
    return this.perform(studioId, 'mixed by', async (tx) => {
      const formula = await this.store.locked(tx, formulaId);
      if (!formula) throw unknown();
      const items = await this.stock.items(tx);
      const able = items.filter((item) => canBeMixed(item, formula.kind)).map((item) => item.id);
      if (!itemIds.every((id) => able.includes(id)))
        throw new AppError('bad_input', undefined, [
          { field: 'itemIds', message: 'This cannot be mixed by it.' },
        ]);
      const before = items.filter((item) => item.formulaId === formulaId).map((item) => item.id);
      for (const item of await this.stock.lock(tx, [...before, ...itemIds]))
        if (item.formulaId === formulaId && !itemIds.includes(item.id))
          await this.itemsStore.update(tx, { ...item, formulaId: null });
      await this.mixBy(tx, formula, itemIds);
      await this.record(tx, who, formulaId, 'mixed by');
    });
  }

  /** Puts a formula away, or takes it out again. @throws AppError not_found, wrong_state while it is used */
  archive(studioId: string, who: Who, formulaId: string, archived: boolean): Promise<null> {
    return this.perform(studioId, 'archive formula', async (tx) => {
      const formula = await this.store.locked(tx, formulaId);
      if (!formula) throw unknown();
      const user = (await this.stock.items(tx)).find((item) => item.formulaId === formulaId);
      if (archived && user) throw new AppError('wrong_state', `${user.name} is mixed by it.`);
      await this.store.update(tx, { ...formula, archived });
      await this.record(tx, who, formulaId, archived ? 'put away' : 'take out');
    });
  }

  private perform(studioId: string, name: string, act: (tx: Tx) => Promise<void>): Promise<null> {
    const doing = { name, key: undefined, request: null };
    return this.acts.perform(studioId, doing, z.null(), async (tx) => {
      await act(tx);
      return null;
    });
  }

  private async add(
    tx: Tx,
    who: Who,
    formula: Omit<Formula, 'currentVersion' | 'archived'>,
    text: FormulaText,
  ): Promise<void> {
    await this.store.insert(tx, { ...formula, currentVersion: 1, archived: false });
    const version = { ...text, version: 1, createdAt: this.clock.now(), who: who.name };
    await this.store.insertVersion(tx, formula.id, version);
  }

  /** Items mixed by a formula ripen and keep as its current version says. */
  private async mixBy(tx: Tx, formula: Formula, itemIds: string[]): Promise<void> {
    const [current] = await this.store.versions(tx, formula.id);
    if (!current) throw unknown();
    const { ripenDays, lifeDays } = current;
    const items = await this.stock.lock(tx, itemIds);
    for (const item of items)
      await this.itemsStore.update(tx, { ...item, formulaId: formula.id, ripenDays, lifeDays });
    if (items.length > 0) await this.stock.replan(tx, itemIds);
  }

  /** Lines with the things they are taken from; what is not kept yet is entered, empty. */
  private async lines(tx: Tx, lines: StarterLine[], items: Item[]): Promise<FormulaLine[]> {
    const kept = [...items];
    const read: FormulaLine[] = [];
    for (const line of lines) {
      const found = itemFor(kept, line) ?? (await this.stock.enterItem(tx, newChemical(line)));
      if (!kept.includes(found)) kept.push(found);
      read.push({ ...line, itemId: found.id });
    }
    return read;
  }

  private async read(tx: Tx, sent: Sent): Promise<Pick<Formula, 'name' | 'kind'> & { text: FormulaText }> {
    const [items, substances] = [await this.stock.items(tx), await this.store.substances(tx)];
    const problems: FieldProblem[] = [];
    const form = attempt(() => readInput(formulaForm, sent), problems);
    const typed = typedLines(sent);
    const lines = typed.flatMap(({ number, ...one }) => {
      const answer = readLine(one, items);
      if (answer.ok) return [answer.line];
      problems.push({ field: `${answer.field}-${number}`, message: lineProblem(answer) });
      return [];
    });
    if (typed.length === 0)
      problems.push({ field: 'ingredient-1', message: 'Please write what goes into it.' });
    const deadly = form && cyanideMeetsAcid(form.kind, lines, items, substances);
    if (deadly !== null)
      problems.push({
        field: `ingredient-${typed[deadly]?.number ?? 1}`,
        message: 'Cyanide and acid in one bottle give hydrogen cyanide gas, which kills. This is not kept.',
      });
    const batch = batchOf(form?.batch ?? '', lines);
    if (form && typeof batch === 'string' && (form.batch !== '' || problems.length === 0))
      problems.push({ field: 'batch', message: batch });
    if (!form || typeof batch === 'string' || problems.length > 0)
      throw new AppError('bad_input', undefined, problems);
    const { name, kind, method, batch: batchAsWritten, ...rest } = form;
    return { name, kind, text: { ...rest, batch, batchAsWritten, method: method.split('\n'), lines } };
  }

  private record(tx: Tx, who: Who, aboutId: string, event: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'formula', aboutId, event });
  }
}

export const canBeMixed = (item: Item, kind: Formula['kind']): boolean =>
  item.kind === kind && item.unit === 'uL' && !item.archived;

/** What is wrong is added to the problems. */
function attempt<T>(read: () => T, problems: FieldProblem[]): T | null {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
    problems.push(...error.fields);
    return null;
  }
}

function lineProblem(answer: Exclude<ReturnType<typeof readLine>, { ok: true }>): string {
  if (answer.field === 'amount')
    return answer.reason === 'nothing' ? 'Please say how much.' : amountProblem(answer.reason, answer.unit);
  if (answer.reason === 'which cadmium bromide')
    return 'Which one: “Cadmium bromide, anhydrous” or “Cadmium bromide, tetrahydrate”? The second holds 21 % less.';
  return answer.reason === 'missing' ? 'Please say what it is.' : 'Please keep this under 120 characters.';
}

/** Microlitres, or a sentence. Left empty it is the sum of the liquids. */
function batchOf(typed: string, lines: FormulaLine[]): bigint | string {
  if (typed === '') return liquidOf(lines) || 'Please say how much one batch makes, like 500 ml.';
  const read = parseQuantity(typed, 'uL');
  if (!read.ok) return amountProblem(read.reason, 'uL');
  return read.amount || 'Please say how much one batch makes, like 500 ml.';
}

/** A line of anhydrous cadmium bromide for a bottle of tetrahydrate: more of it, for the same bromide. */
function ofBromide(line: StarterLine, bromide: 'anhydrous' | 'tetrahydrate' | null): StarterLine {
  if (bromide !== 'tetrahydrate' || line.substance !== 'cadmium bromide, anhydrous') return line;
  const substance = 'cadmium bromide, tetrahydrate';
  const note = `${line.note} 26 % more than of anhydrous, for the same bromide`.trim();
  const quantity = asOtherCadmiumBromide(line.quantity, 'anhydrous');
  return { ...line, substance, ingredient: SUBSTANCES[substance].name, quantity, note };
}

const textOf = (starter: StarterFormula, lines: FormulaLine[]): FormulaText => {
  const { batch, batchAsWritten, ripenDays, lifeDays, source, method, note } = starter;
  return { batch, batchAsWritten, ripenDays, lifeDays, source, method, note, lines };
};
const newSolution = ({ name, kind, ripenDays, lifeDays }: StarterFormula): NewItem => {
  return { name, kind, unit: 'uL', plateSizeId: null, leadDays: null, ripenDays, lifeDays };
};

/** The label says what a bottle warns of; only statements that were read in a source are taken over. */
function newChemical({ ingredient, substance: key, unit }: StarterLine): NewItem {
  const substance = substanceOf(key);
  const seen = hazardsOf(key).filter(({ basis }) => basis === 'seen');
  const { lifeDays = null, openedLifeDays = null, noPost = false, storage = '' } = substance ?? {};
  const bought = { leadDays: LEAD_DAYS, ripenDays: null, plateSizeId: null };
  const kept = { lifeDays, openedLifeDays, noPost, storage, hCodes: seen.map(({ code }) => code) };
  return { name: ingredient, kind: 'chemical', unit, substance: key, ...bought, ...kept };
}
