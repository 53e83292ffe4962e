// What the API tells of the shelf ahead. Amounts are whole milligrams, microlitres, sheets or pieces, as `unit` says.
import { z } from 'zod';
import type { Horizon } from './horizon.calc.js';
import { lackingOf, type Purpose, toMix } from './mixing.calc.js';
import { toOrder } from './ordering.calc.js';
import { outlooks } from './outlook.calc.js';
import { projectionOf } from './projection.calc.js';
import { unit } from './stock.schemas.js';

/** How far ahead days are told. */
const MONTHS = 18;

const date = z.string().describe('YYYY-MM-DD');
const amount = z.int();
const state = z.enum(['enough', 'mix by', 'order by', 'nothing to do yet', 'cannot be had']);
const why = z.enum(['never comes', 'too late', 'over the limit']);
const purpose = {
  days: z.array(date).describe('days of places it is for'),
  into: z.array(z.object({ itemId: z.uuid(), mixBy: date })).describe('what it goes into'),
};

export const planAnswer = z.object({
  today: date,
  items: z.array(
    z.object({
      id: z.uuid(),
      name: z.string(),
      unit,
      days: z
        .array(
          z.object({
            day: date,
            onHand: amount.describe('usable in the evening'),
            setAside: amount.describe('of it, for later days'),
            came: amount,
            used: amount,
            ranOut: amount,
            short: amount,
          }),
        )
        .describe('days on which something changes, today first'),
    }),
  ),
  toMix: z.array(
    z.object({
      itemId: z.uuid(),
      formulaId: z.uuid().nullable(),
      quantity: amount,
      needed: amount,
      earliest: date,
      latest: date,
      usableOn: date,
      ...purpose,
    }),
  ),
  toOrder: z.array(
    z.object({
      itemId: z.uuid(),
      supplierId: z.uuid().nullable(),
      quantity: amount,
      packs: z.int().nullable(),
      needed: amount,
      by: date,
      neededOn: date,
      limited: z.boolean().describe('cut down to the most that may be on hand'),
      noPost: z.boolean().describe('cannot go by post or air'),
      ...purpose,
    }),
  ),
  lacking: z.array(
    z.object({ itemId: z.uuid(), quantity: amount, neededOn: date, why, readyOn: date.nullable() }),
  ),
  places: z.array(
    z.object({
      id: z.uuid().describe('of the sitting, or of the studio day for what the day itself takes'),
      state,
      by: date.nullable(),
      reasons: z.array(
        z.object({
          item: z.string(),
          state,
          action: z.enum(['mix', 'order']).nullable(),
          by: date.nullable(),
          into: z.string().nullable(),
          why: why.nullable(),
        }),
      ),
    }),
  ),
});
type Answer = z.output<typeof planAnswer>;

export function toPlanAnswer(horizon: Horizon): Answer {
  const { today } = horizon;
  const until = today.add({ months: MONTHS });
  return {
    today: today.toString(),
    items: [...horizon.items.values()].map((ahead) => ({
      id: ahead.item.id,
      name: ahead.item.name,
      unit: ahead.item.unit,
      days: projectionOf(ahead, today, until).days.map(({ day, ...one }) => ({
        day: day.toString(),
        onHand: Number(one.onHand),
        setAside: Number(one.setAside),
        came: Number(one.came),
        used: Number(one.used),
        ranOut: Number(one.ranOut),
        short: Number(one.short),
      })),
    })),
    toMix: toMix(horizon).map((one) => ({
      itemId: one.item.id,
      formulaId: one.formulaId,
      quantity: Number(one.quantity),
      needed: Number(one.needed),
      earliest: one.earliest.toString(),
      latest: one.latest.toString(),
      usableOn: one.usableOn.toString(),
      ...purposeOf(one.purpose),
    })),
    toOrder: toOrder(horizon).map((one) => ({
      itemId: one.item.id,
      supplierId: one.item.supplierId,
      quantity: Number(one.quantity),
      packs: one.packs === null ? null : Number(one.packs),
      needed: Number(one.needed),
      by: one.by.toString(),
      neededOn: one.neededOn.toString(),
      limited: one.limited,
      noPost: one.item.noPost,
      ...purposeOf(one.purpose),
    })),
    lacking: [true, false].flatMap((mixed) =>
      lackingOf(horizon, mixed).map((one) => ({
        itemId: one.item.id,
        quantity: Number(one.quantity),
        neededOn: one.day.toString(),
        why: one.reason,
        readyOn: one.readyOn?.toString() ?? null,
      })),
    ),
    places: [...outlooks(horizon)].map(([id, outlook]) => ({
      id,
      state: outlook.state,
      by: outlook.by?.toString() ?? null,
      reasons: outlook.reasons.map((one) => ({ ...one, by: one.by?.toString() ?? null })),
    })),
  };
}

const purposeOf = ({ days, into }: Purpose): Pick<Answer['toMix'][number], 'days' | 'into'> => ({
  days: days.map(String),
  into: into.map(({ item, mixBy }) => ({ itemId: item.id, mixBy: mixBy.toString() })),
});
