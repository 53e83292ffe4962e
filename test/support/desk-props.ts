// Props for the desk's pages, and what a reader sees of them.
import type { VNode } from 'preact';
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../src/accounts/visits.service.js';
import type { DayChoice } from '../../src/desk/glance.calc.js';
import { renderDocument } from '../../src/platform/html/shell.js';
import type { ClosedReason, Slot } from '../../src/room/openings.calc.js';
import { NO_PLAN } from '../../src/travel/plan.schemas.js';
import type { SittingView } from '../../src/sittings/sittings.schemas.js';
import { ENOUGH, type StockReason } from '../../src/stock/outlook.calc.js';

export const day = (text: string) => Temporal.PlainDate.from(text);

export const visitOf = (role: 'owner' | 'assistant') =>
  ({
    studio: { slug: 'sandpiper-loft', name: 'Sandpiper Loft', lat: 54.49, lon: -0.61, zone: 'Europe/London' },
    account: { id: 'a', role, name: 'Isaura Fenwick', email: 'owner@sandpiper-loft.example' },
    formToken: 'token-of-the-form',
  }) as StaffVisit;

export function slot(start: string, closed: ClosedReason | null = null): Slot {
  const wallStart = Temporal.PlainDateTime.from(start);
  const startsAt = Temporal.Instant.from(`${start}:00Z`);
  const endsAt = startsAt.add({ minutes: 75 });
  const holdStill = { clear: { from: 6, to: 9 }, dull: { from: 24, to: 36 } };
  const wallEnd = wallStart.add({ minutes: 75 });
  return { wallStart, wallEnd, startsAt, endsAt, busyUntil: endsAt, holdStill, closed };
}

/** Why there is not enough yet; of an item that comes by itself, unless said otherwise. */
export const reason = (
  change: Pick<StockReason, 'item' | 'state' | 'action' | 'by'> & Partial<StockReason>,
) => ({
  into: null,
  why: null,
  ...change,
});

export const choice = (date: string, slots: Slot[], stock = ENOUGH): DayChoice => ({
  date: day(date),
  light: null,
  stock,
  slots,
});

export function view(
  change: { sitting?: Partial<SittingView['sitting']>; contact?: Partial<SittingView['contact']> } = {},
) {
  const sitter = { id: 's', name: 'Linnea Harrow', ageBand: 'adult' as const, headRest: true };
  return {
    sitting: {
      id: '11111111-1111-4111-8111-111111111111',
      contactId: 'c',
      kindId: null,
      state: 'requested',
      askedAt: Temporal.Instant.from('2026-11-25T10:00:00Z'),
      decidedAt: null,
      suits: { kind: 'any', from: day('2027-05-01'), until: day('2027-05-31') },
      hopes: '',
      anything: '',
      message: '',
      occupancyId: null,
      turns: 0,
      returnOwed: false,
      returnOf: null,
      offersUnanswered: 0,
      marks: { priority: '', hardship: '', noticeDays: null },
      details: { access: '', brings: '', minor: false, guardian: null },
      ...change.sitting,
    },
    contact: {
      id: 'c',
      name: 'Linnea Harrow',
      reachBy: 'email',
      email: 'linnea@post.example',
      telephone: '',
      postalAddress: '',
      home: { name: 'York, United Kingdom', lat: 54, lon: -1, zone: 'Europe/London' },
      postcode: '',
      plan: NO_PLAN,
      remindersStoppedAt: null,
      language: 'en',
      ...change.contact,
    },
    kind: null,
    sitters: [sitter],
    plates: [
      { id: 'p', plateSizeId: 'z', sitterIds: ['s'], sizeName: 'Whole plate', names: ['Linnea Harrow'] },
    ],
    place: null,
    journey: {
      mode: 'car',
      own: false,
      crossing: { kind: 'none', railKm: null, from: 'Great Britain', to: 'Great Britain', water: '' },
      km: 67,
      roadKm: { from: 70, to: 100 },
      hours: { from: 1, to: 1.75 },
      overnight: false,
      farAway: 'day trip',
    },
  } satisfies SittingView as SittingView;
}

export function confirmed(start: string): SittingView {
  const { wallStart, wallEnd, startsAt, endsAt } = slot(start);
  const place = { wallStart, wallEnd, startsAt, endsAt, zone: 'Europe/London', holds: true };
  return { ...view({ sitting: { state: 'confirmed' } }), place: place as SittingView['place'] };
}

export const html = (node: VNode) => renderDocument(node).replaceAll('\u00a0', ' ');
/** What a reader sees, in one line. */
export const text = (node: VNode) =>
  html(node)
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
    .replaceAll(' ,', ',');
