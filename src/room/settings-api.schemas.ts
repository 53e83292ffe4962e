// The JSON shapes of the settings. Dates, times and starts are wall times of the studio in ISO 8601.
import { z } from 'zod';
import type { Studio } from '../studios/studios.schemas.js';
import { change } from './changes.schemas.js';
import type { Preview } from './settings.service.js';
import { breaksInWords, minuteInWords } from './words.calc.js';
import { KEEPS_PLATE, OFFERED, type RoomRules } from './rules.schemas.js';

export const changeQuery = z.object({ preview: z.enum(['true', 'false']).default('false') });
/** As it is described; what stands in the change is checked by the service, which tells each wrong field. */
export const changeBody = z.object({ change, seen: z.string().default('') });
export const changeSent = changeBody.extend({ change: z.unknown() });

const attendance = z.object({
  weekdays: z.array(z.int()),
  also: z.array(z.string()),
  away: z.array(z.string()),
});

export const settingsAnswer = z.object({
  rhythms: z.array(
    z.object({
      id: z.uuid(),
      weekday: z.int(),
      starts: z.array(z.string()),
      firstPlateMinutes: z.int(),
      furtherPlateMinutes: z.int(),
      furtherSitterMinutes: z.int(),
      changeoverMinutes: z.int(),
      breaks: z.array(z.string()),
      mostSittings: z.int(),
      mostSittingsWithHelper: z.int(),
      mostPlates: z.int(),
      heldBack: z.int(),
      heldBackDays: z.int(),
      from: z.iso.date(),
      until: z.iso.date().nullable(),
    }),
  ),
  owner: attendance,
  helper: attendance,
  kinds: z.array(
    z.object({
      id: z.uuid(),
      name: z.string(),
      offered: z.enum(OFFERED),
      firstPlateMinutes: z.int().nullable(),
      plates: z.int(),
      fee: z.string(),
      deposit: z.string(),
      keepsPlate: z.enum(KEEPS_PLATE),
      weekdays: z.array(z.int()),
      yearlyQuota: z.int().nullable(),
    }),
  ),
  closures: z.array(z.object({ id: z.uuid(), title: z.string(), from: z.string(), until: z.string() })),
  poseLimits: z.object({
    under8: z.number(),
    from8To14: z.number(),
    adult: z.number(),
    headRest: z.number(),
    groupOf3: z.number(),
  }),
  light: z.object({
    windowKind: z.string(),
    lightFloorDegrees: z.number(),
    referenceSeconds: z.number(),
    referenceAltitudeDegrees: z.number(),
    exposureCapSeconds: z.number(),
  }),
  booking: z.object({ horizonMonths: z.int(), leastNoticeDays: z.int() }),
});

const starts = z.array(z.string());
export const previewAnswer = z.object({
  /** False for a preview, and where the preview that was seen no longer holds. */
  done: z.boolean(),
  change: z.string(),
  /** The values that differ, in words; `before` is empty for something new. */
  details: z.array(z.object({ term: z.string(), before: z.string(), after: z.string() })),
  warnings: z.array(z.string()),
  opens: starts,
  closes: starts,
  heldBack: starts,
  shown: starts,
  touched: z.array(z.object({ heldFor: z.uuid(), start: z.string(), reason: z.string() })),
  seen: z.string(),
});

export function toSettingsAnswer({
  studio,
  rules,
}: {
  studio: Studio;
  rules: RoomRules;
}): z.output<typeof settingsAnswer> {
  const { windowKind, lightFloorDegrees, referenceSeconds, referenceAltitudeDegrees, exposureCapSeconds } =
    studio;
  return {
    rhythms: rules.rhythms.map(({ effectiveFrom, effectiveUntil, starts: at, breaks, ...numbers }) => ({
      ...numbers,
      starts: at.map(minuteInWords),
      breaks: breaksInWords(breaks, '-').split(', ').filter(Boolean),
      from: effectiveFrom.toString(),
      until: effectiveUntil?.toString() ?? null,
    })),
    owner: rules.owner,
    helper: rules.helper,
    kinds: rules.kinds.map(({ position: _, ...kind }) => kind),
    closures: rules.closures.map((one) => ({
      id: one.id,
      title: one.title,
      from: one.wallFrom.toString({ smallestUnit: 'minute' }),
      until: one.wallUntil.toString({ smallestUnit: 'minute' }),
    })),
    poseLimits: rules.limits,
    light: { windowKind, lightFloorDegrees, referenceSeconds, referenceAltitudeDegrees, exposureCapSeconds },
    booking: { horizonMonths: studio.horizonMonths, leastNoticeDays: studio.leastNoticeDays },
  };
}

export function toPreviewAnswer(preview: Preview, done: boolean): z.output<typeof previewAnswer> {
  const text = (all: Preview['diff']['opens']) => all.map((one) => one.toString({ smallestUnit: 'minute' }));
  const { opens, closes, heldBack, shown } = preview.diff;
  return {
    done,
    change: preview.sentence,
    details: preview.details,
    warnings: preview.warnings,
    opens: text(opens),
    closes: text(closes),
    heldBack: text(heldBack),
    shown: text(shown),
    touched: preview.touched.map(({ occupancy, reason }) => ({
      heldFor: occupancy.heldFor,
      start: occupancy.wallStart.toString({ smallestUnit: 'minute' }),
      reason,
    })),
    seen: preview.seen,
  };
}
