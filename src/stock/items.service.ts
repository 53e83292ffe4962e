// What is kept on the shelf and from whom it is bought: the owner enters and changes items and suppliers.
import { Injectable } from '@nestjs/common';
import { STARTER_PLATE_SIZES, type StarterPlateSize } from '../chemistry/plate-sizes.calc.js';
import { z } from 'zod';
import { Clock, Random } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { ActsService, type Key, readAmount, type Who } from './acts.service.js';
import { ItemsStore } from './items.store.js';
import {
  type Amount,
  addItemForm,
  editItemForm,
  type ItemSettings,
  supplierForm,
} from './shelf-forms.schemas.js';
import { type Item, type PlateSize, type Unit, withExtras } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import type { Supplier } from './suppliers.schemas.js';
import { SuppliersStore } from './suppliers.store.js';
import { WITH_A_USUAL } from './usual.calc.js';

const entered = z.object({ itemId: z.uuid() });
const known = z.object({ supplierId: z.uuid() });

@Injectable()
export class ItemsService {
  private readonly store = new ItemsStore();
  private readonly suppliersStore = new SuppliersStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  suppliers(tx: Tx): Promise<Supplier[]> {
    return this.suppliersStore.all(tx);
  }

  /** Enters a new kind of thing to keep. @throws AppError bad_input with a sentence per field */
  addItem(studioId: string, who: Who, input: unknown, key?: Key): Promise<z.output<typeof entered>> {
    const { kind, unit, plateSizeId: size, surface, ...settings } = readInput(addItemForm, input);
    return this.acts.perform(studioId, { name: 'add item', key, request: input }, entered, async (tx) => {
      const sizes = await this.stock.plateSizes(tx);
      const glass = kind === 'glass';
      const starter = glass ? STARTER_PLATE_SIZES.find(({ key }) => key === size) : undefined;
      const problems = glass ? glassProblems(unit, starter ? null : size, starter ? null : sizes) : [];
      if (!glass && unit === 'sheet')
        problems.push({ field: 'unit', message: 'Only glass is counted in sheets; please choose pieces.' });
      const whole = {
        ...(await this.settingsOf(tx, settings, unit, problems)),
        kind,
        unit,
        plateSizeId: glass && !starter ? size : null,
        surface: glass ? (surface ?? ('clear glass' as const)) : null,
      };
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      if (starter) whole.plateSizeId = await this.sizeOf(tx, starter, sizes);
      const item = { id: this.random.id(), ...withExtras(whole) };
      await this.store.insert(tx, item);
      await this.record(tx, who, 'item', item.id, 'add');
      return { itemId: item.id };
    });
  }

  /**
   * Changes how an item is bought, mixed and kept, and plans what is set aside of it anew.
   * @param check is shown the item as it stands, under its lock, and throws to refuse
   * @throws AppError
   */
  editItem(
    studioId: string,
    who: Who,
    itemId: string,
    input: unknown,
    check: (item: Item) => void = () => {},
  ): Promise<null> {
    const settings = readInput(editItemForm, input);
    const doing = { name: 'edit item', key: undefined, request: null };
    return this.acts.perform(studioId, doing, z.null(), async (tx) => {
      const [item] = await this.stock.lock(tx, [itemId]);
      if (!item) throw new AppError('not_found', 'This is not kept on the shelf.');
      check(item);
      const problems: FieldProblem[] = [];
      const changed: Item = { ...item, ...(await this.settingsOf(tx, settings, item.unit, problems)) };
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      await this.store.update(tx, changed);
      if (settings.usual && WITH_A_USUAL.includes(item.kind)) await this.store.makeUsual(tx, changed);
      await this.stock.replan(tx, [itemId]);
      await this.record(tx, who, 'item', itemId, 'edit');
      return null;
    });
  }

  /** Enters a supplier, or changes one when its id is given. @throws AppError bad_input, not_found */
  editSupplier(
    studioId: string,
    who: Who,
    supplierId: string | null,
    input: unknown,
    key?: Key,
    check: (supplier: Supplier) => void = () => {},
  ) {
    const form = readInput(supplierForm, input);
    const request = { supplierId, input };
    return this.acts.perform(studioId, { name: 'edit supplier', key, request }, known, async (tx) => {
      const before = supplierId === null ? null : await this.suppliersStore.byId(tx, supplierId, true);
      if (supplierId !== null && !before) throw new AppError('not_found', 'This supplier is not known here.');
      if (before) check(before);
      const supplier = { id: supplierId ?? this.random.id(), ...form };
      await this.suppliersStore.save(tx, supplier);
      await this.record(tx, who, 'supplier', supplier.id, supplierId === null ? 'add' : 'edit');
      return { supplierId: supplier.id };
    });
  }

  /** The answers with their amounts read; what is wrong is added to `problems`. */
  private async settingsOf(tx: Tx, settings: ItemSettings, unit: Unit, problems: FieldProblem[]) {
    const read = (field: keyof ItemSettings, typed: Amount | null, nothing: boolean): bigint | null => {
      try {
        return typed === null ? null : readAmount(typed, { unit }, { field, nothing });
      } catch (error) {
        if (!(error instanceof AppError)) throw error;
        problems.push(...error.fields);
        return null;
      }
    };
    if (settings.supplierId !== null && !(await this.suppliersStore.byId(tx, settings.supplierId)))
      problems.push({ field: 'supplierId', message: 'This supplier is not known here.' });
    if (settings.lifeDays === 0 || settings.openedLifeDays === 0)
      problems.push({
        field: settings.lifeDays === 0 ? 'lifeDays' : 'openedLifeDays',
        message: 'It keeps for a day at least; leave it empty when it does not run out.',
      });
    else if (settings.lifeDays !== null && settings.lifeDays <= (settings.ripenDays ?? 0))
      problems.push({
        field: 'lifeDays',
        message: 'It has to keep longer than it ripens; leave it empty when it does not run out.',
      });
    return {
      ...settings,
      packQuantity: read('packQuantity', settings.packQuantity, false),
      heel: read('heel', settings.heel, true) ?? 0n,
      leastPour: read('leastPour', settings.leastPour, true) ?? 0n,
      mostOnHand: read('mostOnHand', settings.mostOnHand, true),
    };
  }

  /** The studio's plate size of these measures, entered now where it has none; it is offered from now on. */
  private async sizeOf(tx: Tx, { name, widthMm, heightMm }: StarterPlateSize, sizes: PlateSize[]) {
    const same = sizes.find((one) => one.widthMm === widthMm && one.heightMm === heightMm);
    if (same) return same.id;
    const position = Math.max(0, ...sizes.map((one) => one.position)) + 1;
    return (await this.stock.enterPlateSize(tx, { name, widthMm, heightMm, offered: true, position })).id;
  }

  private record(tx: Tx, who: Who, aboutKind: string, aboutId: string, event: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind, aboutId, event });
  }
}

/** `sizes` is null where the size is begun with this glass. */
function glassProblems(unit: Unit, plateSizeId: string | null, sizes: PlateSize[] | null): FieldProblem[] {
  return [
    ...(unit === 'sheet' ? [] : [{ field: 'unit', message: 'Glass is counted in sheets.' }]),
    ...(sizes === null || sizes.some((size) => size.id === plateSizeId)
      ? []
      : [{ field: 'plateSizeId', message: 'Please choose a plate size.' }]),
  ];
}
