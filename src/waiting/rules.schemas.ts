// The studio's rule of the waiting list: what counts how much, who passes a place on, how long an offer lasts.
import { z } from 'zod';

export const MODES = ['by hand', 'propose', 'automatic'] as const;
export type Mode = (typeof MODES)[number];

/** Points: `asked` for each year of waiting, `flexible` and `far` at most so many, the others all or none. */
export interface Points {
  asked: number;
  flexible: number;
  far: number;
  series: number;
  priority: number;
  hardship: number;
}

/** How long an offer stays open, by how far ahead the place is. */
export interface OfferLife {
  /** A place further ahead than so many weeks: open for `farDays`. */
  farWeeks: number;
  farDays: number;
  /** A place nearer than so many weeks: by telephone, held for `telephoneDays`; between the two `middleDays`. */
  nearWeeks: number;
  middleDays: number;
  telephoneDays: number;
  /** The hour at which offers end, on a working day, time at the studio. */
  endsAtHour: number;
}

/** Days between an answer and the place that a traveller needs, by how far they come. */
export interface Notice {
  near: number;
  day: number;
  night: number;
  flight: number;
}

export interface WaitingRules {
  mode: Mode;
  points: Points;
  /** After so many offers in a row without an answer no more are made. */
  mostUnanswered: number;
  life: OfferLife;
  notice: Notice;
}

/** How long offers last: common practice, no source. Points, notice and all else: assumptions. */
export const DEFAULT_WAITING_RULES: WaitingRules = {
  mode: 'propose',
  points: { asked: 12, flexible: 2, far: 2, series: 3, priority: 12, hardship: 6 },
  mostUnanswered: 2,
  life: { farWeeks: 8, farDays: 10, nearWeeks: 2, middleDays: 3, telephoneDays: 1, endsAtHour: 18 },
  notice: { near: 1, day: 4, night: 14, flight: 42 },
};

export const waitingRulesRow = z.object({
  mode: z.enum(MODES),
  points_asked: z.number(),
  points_flexible: z.number(),
  points_far: z.number(),
  points_series: z.number(),
  points_priority: z.number(),
  points_hardship: z.number(),
  most_unanswered: z.number(),
  far_weeks: z.number(),
  far_days: z.number(),
  near_weeks: z.number(),
  middle_days: z.number(),
  telephone_days: z.number(),
  ends_at_hour: z.number(),
  notice_near: z.number(),
  notice_day: z.number(),
  notice_night: z.number(),
  notice_flight: z.number(),
});

export function toWaitingRules(row: z.output<typeof waitingRulesRow>): WaitingRules {
  return {
    mode: row.mode,
    points: {
      asked: row.points_asked,
      flexible: row.points_flexible,
      far: row.points_far,
      series: row.points_series,
      priority: row.points_priority,
      hardship: row.points_hardship,
    },
    mostUnanswered: row.most_unanswered,
    life: {
      farWeeks: row.far_weeks,
      farDays: row.far_days,
      nearWeeks: row.near_weeks,
      middleDays: row.middle_days,
      telephoneDays: row.telephone_days,
      endsAtHour: row.ends_at_hour,
    },
    notice: {
      near: row.notice_near,
      day: row.notice_day,
      night: row.notice_night,
      flight: row.notice_flight,
    },
  };
}

const whole = (from: number, to: number) => {
  const words = `Please give a whole number from ${from} to ${to}.`;
  return z
    .string(words)
    .trim()
    .regex(/^\d{1,3}$/, words)
    .transform(Number)
    .pipe(z.number().min(from, words).max(to, words));
};

const rulesFields = z.object({
  mode: z.enum(MODES, 'Please choose one of the three.'),
  asked: whole(0, 100),
  flexible: whole(0, 100),
  far: whole(0, 100),
  series: whole(0, 100),
  priority: whole(0, 100),
  hardship: whole(0, 100),
  mostUnanswered: whole(1, 10),
  farWeeks: whole(1, 52),
  farDays: whole(1, 60),
  nearWeeks: whole(0, 52),
  middleDays: whole(1, 60),
  telephoneDays: whole(1, 14),
  endsAtHour: whole(9, 19),
  noticeNear: whole(0, 365),
  noticeDay: whole(0, 365),
  noticeNight: whole(0, 365),
  noticeFlight: whole(0, 365),
});

const weeks = z.object({ farWeeks: z.number(), nearWeeks: z.number() });

/** The rule as the owner's form sends it: every field as text. */
export const waitingRulesForm = rulesFields
  .superRefine(
    (rules, context) => {
      if (rules.nearWeeks > rules.farWeeks)
        context.addIssue({
          code: 'custom',
          path: ['nearWeeks'],
          message: 'This must not be more than the weeks above.',
        });
    },
    // Checked whatever else is wrong, so that all mistakes are told at once.
    { when: ({ value }) => weeks.safeParse(value).success },
  )
  .transform(
    (said): WaitingRules => ({
      mode: said.mode,
      points: {
        asked: said.asked,
        flexible: said.flexible,
        far: said.far,
        series: said.series,
        priority: said.priority,
        hardship: said.hardship,
      },
      mostUnanswered: said.mostUnanswered,
      life: {
        farWeeks: said.farWeeks,
        farDays: said.farDays,
        nearWeeks: said.nearWeeks,
        middleDays: said.middleDays,
        telephoneDays: said.telephoneDays,
        endsAtHour: said.endsAtHour,
      },
      notice: {
        near: said.noticeNear,
        day: said.noticeDay,
        night: said.noticeNight,
        flight: said.noticeFlight,
      },
    }),
  );

/** The rule as the form's fields, by name. */
export const rulesAsFields = (rules: WaitingRules): Record<string, string> =>
  Object.fromEntries(
    Object.entries({
      mode: rules.mode,
      ...rules.points,
      mostUnanswered: rules.mostUnanswered,
      ...rules.life,
      noticeNear: rules.notice.near,
      noticeDay: rules.notice.day,
      noticeNight: rules.notice.night,
      noticeFlight: rules.notice.flight,
    }).map(([name, value]) => [name, String(value)]),
  );
