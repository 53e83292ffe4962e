// Every reading method of every store, called with what belongs to one studio. Which methods there are is read
// from the source, so that a new one without a line here is found by test/db/row-security.spec.ts.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { AccountsStore } from '../../src/accounts/accounts.store.js';
import { LinksStore } from '../../src/accounts/links.store.js';
import { SecondFactorStore } from '../../src/accounts/second-factor.store.js';
import { SignInsStore } from '../../src/accounts/sign-ins.store.js';
import { ActualsStore } from '../../src/chemistry/actuals.store.js';
import { DaylightStore } from '../../src/daylight/daylight.store.js';
import { PeopleStore } from '../../src/people/people.store.js';
import { historyBefore, historyOf } from '../../src/platform/db/history.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { hashOf } from '../../src/platform/security/tokens.js';
import { DayLetterStore } from '../../src/reminders/day-letter.store.js';
import { MailStore } from '../../src/reminders/mail.store.js';
import { MadeStore } from '../../src/plates/made.store.js';
import { OwedStore } from '../../src/plates/owed.store.js';
import { BathsStore } from '../../src/stock/baths.store.js';
import { PreparationStore } from '../../src/stock/preparation.store.js';
import { RederiveStore } from '../../src/room/rederive.store.js';
import { RoomStore } from '../../src/room/room.store.js';
import { RulesStore } from '../../src/room/rules.store.js';
import { ConsentsStore } from '../../src/sittings/consents.store.js';
import { EndingsStore } from '../../src/sittings/endings.store.js';
import { PlansStore } from '../../src/sittings/plans.store.js';
import { SittingsStore } from '../../src/sittings/sittings.store.js';
import { STATES } from '../../src/sittings/states.calc.js';
import { UndoStore } from '../../src/sittings/undo.store.js';
import { FormulasStore } from '../../src/stock/formulas.store.js';
import { LotsStore } from '../../src/stock/lots.store.js';
import { ReceiptsStore } from '../../src/stock/receipts.store.js';
import { PlanningStore } from '../../src/stock/planning.store.js';
import { WordingsStore } from '../../src/reminders/wordings.store.js';
import { RemindersStore } from '../../src/reminders/reminders.store.js';
import { SettledStore } from '../../src/stock/settled.store.js';
import { StockStore } from '../../src/stock/stock.store.js';
import { SuppliersStore } from '../../src/stock/suppliers.store.js';
import { StudiosStore } from '../../src/studios/studios.store.js';
import { VouchersStore } from '../../src/vouchers/vouchers.store.js';
import { AfterStore } from '../../src/teaching/after.store.js';
import { BriefingStore } from '../../src/teaching/briefing.store.js';
import { SessionsStore } from '../../src/teaching/sessions.store.js';
import { SignUpsStore } from '../../src/teaching/sign-ups.store.js';
import { TurnsStore } from '../../src/teaching/turns.store.js';
import { WishesStore } from '../../src/sittings/wishes.store.js';
import { WaitingStore } from '../../src/waiting/waiting.store.js';
import { WRITTEN_DAY } from './actuals.js';
import { MADE_DAY, MADE_ID, SERIES_ID } from './made.js';
import { BACKUP_CALLS } from './backup-calls.js';
import { PRIVACY_CALLS } from './privacy-calls.js';
import { BRING_IN_CALLS } from './bring-in-calls.js';
import { OUTSIDE_CALLS } from './outside-calls.js';
import { PLATE_CALLS } from './plate-calls.js';

/** Things of one studio that calls ask for. */
export interface Belongings {
  slug: string;
  ownerId: string;
  email: string;
  session: string;
  feedToken: string;
  linkId: string;
  contactId: string;
  sittingId: string;
  /** Of somebody who said no to a place. */
  refusedId: string;
  planId: string;
  occupancyId: string;
  itemIds: string[];
  /** The first has given something to a sitting and to the second. */
  lotIds: string[];
  receiptId: string;
  supplierId: string;
  formulaId: string;
  bathId: string;
  mailId: string;
  mailTo: string;
  learning: { sessionId: string; signUpId: string; waiting: string; day: Temporal.PlainDate };
}

const FAR = {
  past: Temporal.Instant.from('2000-01-01T00:00Z'),
  future: Temporal.Instant.from('2100-01-01T00:00Z'),
};
const DAY = Temporal.PlainDate.from('2027-01-15');
const FAR_BACK = Temporal.PlainDate.from('2000-01-01');
const LATE = Temporal.PlainDate.from('2100-01-01');
/** The day of the one sitting. */
const SAT = Temporal.PlainDate.from('2027-04-02');

const hold = (tx: Tx) => tx.run(`update mail set state = 'held' where studio_id = $1`, [tx.studioId]);

/** Those that also write (`use`, `lease`, `giveBack`) come last and change the rows they find. */
export const CALLS: Record<string, (tx: Tx, of: Belongings) => Promise<unknown>> = {
  ...PLATE_CALLS,
  ...OUTSIDE_CALLS,
  ...BRING_IN_CALLS,
  'ConsentsStore.wordings': (tx) => new ConsentsStore().wordings(tx),
  'WishesStore.all': (tx) => new WishesStore().all(tx),
  'WishesStore.of': (tx, { sittingId }) => new WishesStore().of(tx, sittingId),
  'ConsentsStore.of': (tx, { contactId }) => new ConsentsStore().of(tx, contactId),
  'StudiosStore.load': (tx) => new StudiosStore().load(tx),
  'StudiosStore.calendarRaisedAt': (tx) => new StudiosStore().calendarRaisedAt(tx),
  'AccountsStore.byEmail': (tx, { email }) => new AccountsStore().byEmail(tx, email),
  'AccountsStore.byId': (tx, { ownerId }) => new AccountsStore().byId(tx, ownerId),
  'AccountsStore.owner': (tx) => new AccountsStore().owner(tx),
  'SittingsStore.anyConfirmed': async (tx) => (await new SittingsStore().anyConfirmed(tx)) || null,
  'StudiosStore.isFirst': async (tx) => !(await new StudiosStore().isFirst(tx)),
  'AccountsStore.all': (tx) => new AccountsStore().all(tx),
  'SignInsStore.byHash': (tx, { session }) =>
    new SignInsStore().byHash(tx, hashOf(session), { begun: FAR.past, seen: FAR.past }),
  'SignInsStore.ofAccount': (tx, { ownerId }) =>
    new SignInsStore().ofAccount(tx, ownerId, { begun: FAR.past, seen: FAR.past }),
  'SecondFactorStore.of': (tx, { ownerId }) => new SecondFactorStore().of(tx, ownerId),
  'SecondFactorStore.recoveryLeft': (tx, { ownerId }) => new SecondFactorStore().recoveryLeft(tx, ownerId),
  'LinksStore.byHash': (tx, { feedToken }) => new LinksStore().byHash(tx, 'feed', hashOf(feedToken)),
  'LinksStore.byIds': (tx, { linkId }) => new LinksStore().byIds(tx, [linkId]),
  'LinksStore.staying': (tx, { ownerId }) => new LinksStore().staying(tx, 'feed', ownerId),
  'LinksStore.newest': (tx, { ownerId }) => new LinksStore().newest(tx, 'feed', [ownerId]),
  'LinksStore.live': (tx, { ownerId }) => new LinksStore().live(tx, 'feed', 'owner', [ownerId], FAR.past),
  'ActualsStore.latest': (tx) => new ActualsStore().latest(tx, 10),
  'ActualsStore.locked': (tx) => new ActualsStore().locked(tx, { day: WRITTEN_DAY, madeBy: 'sittings' }),
  'DaylightStore.notes': (tx) => new DaylightStore().notes(tx, 10),
  'DaylightStore.byId': async (tx) => {
    const sql = 'select note_id from exposure_note where studio_id = $1';
    const rows = await tx.many(z.object({ note_id: z.uuid() }), sql, [tx.studioId]);
    return rows[0] ? new DaylightStore().byId(tx, rows[0].note_id) : null;
  },
  'DaylightStore.byIds': async (tx) => {
    const sql = 'select note_id from exposure_note where studio_id = $1';
    const rows = await tx.many(z.object({ note_id: z.uuid() }), sql, [tx.studioId]);
    return new DaylightStore().byIds(
      tx,
      rows.map((row) => row.note_id),
    );
  },
  'DaylightStore.writtenAs': (tx) => new DaylightStore().writtenAs(tx, 'bottle', 'June A'),
  'PeopleStore.contact': (tx, { contactId }) => new PeopleStore().contact(tx, contactId),
  'PeopleStore.travelShown': (tx, { contactId }) => new PeopleStore().travelShown(tx, contactId),
  'PeopleStore.contacts': (tx, { contactId }) => new PeopleStore().contacts(tx, [contactId]),
  'PeopleStore.withSitters': (tx, { contactId }) => new PeopleStore().withSitters(tx, [contactId]),
  'RulesStore.load': async (tx) => (await new RulesStore().load(tx)).rhythms,
  'RoomStore.kindYears': async (tx) => {
    await tx.run('update occupancy set kind_id = occupancy_id where studio_id = $1', [tx.studioId]);
    return new RoomStore().kindYears(tx, 2026, 2028);
  },
  'RoomStore.standingOn': async (tx) =>
    (await new RoomStore().standingOn(tx, Temporal.PlainDate.from('2027-04-02'))).sittings,
  'RoomStore.holding': (tx) => new RoomStore().holding(tx, FAR.past, FAR.future),
  'RoomStore.between': (tx) => new RoomStore().between(tx, FAR.past, FAR.future, FAR.past),
  'RoomStore.byIds': (tx, { occupancyId }) => new RoomStore().byIds(tx, [occupancyId]),
  'RederiveStore.ahead': (tx) => new RederiveStore().ahead(tx, FAR.past),
  'StockStore.plateSizes': (tx) => new StockStore().plateSizes(tx),
  'StockStore.items': (tx) => new StockStore().items(tx),
  'StockStore.lots': (tx) => new StockStore().lots(tx),
  'PlanningStore.lots': (tx) => new PlanningStore().lots(tx, DAY),
  'PlanningStore.due': (tx) => new PlanningStore().due(tx, FAR_BACK),
  'PlanningStore.recipes': (tx) => new PlanningStore().recipes(tx),
  'StockStore.lockItems': (tx, { itemIds }) => new StockStore().lockItems(tx, itemIds),
  'StockStore.lotsOf': (tx, { itemIds }) => new StockStore().lotsOf(tx, itemIds),
  'StockStore.heldFrom': (tx, { itemIds }) => new StockStore().heldFrom(tx, itemIds, DAY),
  'StockStore.heldBefore': (tx, { itemIds }) => new StockStore().heldBefore(tx, itemIds, LATE),
  'StockStore.heldOn': async (tx, { sittingId }) => {
    const [one] = await new StockStore().reservations(tx, sittingId);
    return one ? new StockStore().heldOn(tx, one.neededOn) : [];
  },
  'StockStore.unsettled': (tx) => new StockStore().unsettled(tx, LATE),
  'StockStore.pastOfLots': (tx, { lotIds }) => new StockStore().pastOfLots(tx, lotIds, LATE),
  'StockStore.expected': (tx, { itemIds }) => new StockStore().expected(tx, itemIds),
  'FormulasStore.all': (tx) => new FormulasStore().all(tx),
  'FormulasStore.locked': (tx, { formulaId }) => new FormulasStore().locked(tx, formulaId),
  'FormulasStore.versions': (tx, { formulaId }) => new FormulasStore().versions(tx, formulaId),
  'FormulasStore.substances': (tx) => new FormulasStore().substances(tx),
  'LotsStore.byId': (tx, { lotIds }) => new LotsStore().byId(tx, lotIds[0] ?? ''),
  'LotsStore.byIds': (tx, { lotIds }) => new LotsStore().byIds(tx, lotIds),
  'LotsStore.goneOf': async (tx, { itemIds }) => {
    await tx.run(`update lot set state = 'gone', on_hand = 0, reserved = 0 where studio_id = $1`, [
      tx.studioId,
    ]);
    return new LotsStore().goneOf(tx, itemIds[0] ?? '', 10);
  },
  'LotsStore.movedIn': async (tx) => {
    const sql = `select batch_id from movement where studio_id = $1 and kind = 'received' and batch_id is not null limit 1`;
    const act = await tx.maybe(z.object({ batch_id: z.uuid() }), sql, [tx.studioId]);
    return act ? new LotsStore().movedIn(tx, act.batch_id) : [];
  },
  'LotsStore.movements': (tx, { lotIds }) => new LotsStore().movements(tx, lotIds[0] ?? '', 10),
  'LotsStore.family': (tx, { lotIds }) => new LotsStore().family(tx, lotIds[0] ?? ''),
  'LotsStore.heldOf': (tx, { lotIds }) => new LotsStore().heldOf(tx, lotIds[0] ?? ''),
  'ReceiptsStore.open': (tx) => new ReceiptsStore().open(tx),
  'ReceiptsStore.byId': (tx, { receiptId }) => new ReceiptsStore().byId(tx, receiptId),
  'SuppliersStore.all': (tx) => new SuppliersStore().all(tx),
  'SuppliersStore.byId': (tx, { supplierId }) => new SuppliersStore().byId(tx, supplierId),
  'StockStore.reservations': (tx, { sittingId }) => new StockStore().reservations(tx, sittingId),
  'BathsStore.baths': (tx) => new BathsStore().baths(tx),
  'BathsStore.locked': (tx, { bathId }) => new BathsStore().locked(tx, bathId),
  'BathsStore.events': (tx, { bathId }) => new BathsStore().events(tx, [bathId]),
  'BathsStore.event': async (tx, { bathId }) => {
    const [event] = await new BathsStore().events(tx, [bathId]);
    return event ? new BathsStore().event(tx, event.id) : null;
  },
  'BathsStore.sheetsAhead': (tx) => new BathsStore().sheetsAhead(tx, DAY),
  'BathsStore.faults': (tx) => new BathsStore().faults(tx, 10),
  'BathsStore.faultsOn': async (tx) => {
    const [fault] = await new BathsStore().faults(tx, 1);
    return fault ? new BathsStore().faultsOn(tx, fault.day) : [];
  },
  'BathsStore.fault': async (tx) => {
    const [fault] = await new BathsStore().faults(tx, 1);
    return fault ? new BathsStore().fault(tx, fault.id) : null;
  },
  'BathsStore.heldFromBottle': async (tx) => {
    const [fault] = await new BathsStore().faults(tx, 1);
    return fault?.lotId ? new BathsStore().heldFromBottle(tx, fault.id, fault.lotId) : [];
  },
  'PreparationStore.rules': (tx) => new PreparationStore().rules(tx),
  'PreparationStore.ticks': (tx) => new PreparationStore().ticks(tx, DAY, LATE),
  'PreparationStore.moves': (tx) => new PreparationStore().moves(tx, DAY, LATE),
  'PreparationStore.provided': (tx) => new PreparationStore().provided(tx, DAY),
  'PreparationStore.days': (tx) => new PreparationStore().days(tx, DAY, LATE),
  'PreparationStore.lockDay': (tx) => new PreparationStore().lockDay(tx, SAT),
  'PreparationStore.tests': (tx) => new PreparationStore().tests(tx),
  'PreparationStore.materials': (tx) => new PreparationStore().materials(tx),
  'SittingsStore.byId': (tx, { sittingId }) => new SittingsStore().byId(tx, sittingId, false),
  'SittingsStore.byId, locked': (tx, { sittingId }) => new SittingsStore().byId(tx, sittingId, true),
  'SittingsStore.inStates': (tx) => new SittingsStore().inStates(tx, [...STATES]),
  'SittingsStore.idsOf': (tx, { contactId }) => new SittingsStore().idsOf(tx, contactId),
  'SittingsStore.byOccupancies': (tx, { occupancyId }) =>
    new SittingsStore().byOccupancies(tx, [occupancyId]),
  'SittingsStore.plates': (tx, { sittingId }) => new SittingsStore().plates(tx, [sittingId]),
  'SittingsStore.lockAll': (tx, { sittingId }) =>
    new SittingsStore().lockAll(tx, [sittingId]).then((found) => [...found.values()]),
  'SittingsStore.setState': (tx, { sittingId }) =>
    new SittingsStore().setState(tx, sittingId, 'confirmed', 'made', { at: FAR.future }),
  'EndingsStore.of': async (tx, { sittingId }) => [
    ...(await new EndingsStore().of(tx, [sittingId])).values(),
  ],
  'EndingsStore.used': (tx, { sittingId }) => new EndingsStore().used(tx, sittingId),
  ...BACKUP_CALLS,
  ...PRIVACY_CALLS,
  'DayLetterStore.rule': (tx) => new DayLetterStore().rule(tx),
  'RemindersStore.rules': (tx) => new RemindersStore().rules(tx),
  'RemindersStore.of': (tx, { sittingId }) => new RemindersStore().of(tx, { sittingId }),
  'RemindersStore.lock': async (tx, { sittingId }) => {
    const [one] = await new RemindersStore().of(tx, { sittingId });
    return new RemindersStore().lock(tx, one?.reminder_id ?? sittingId);
  },
  'MailStore.about': (tx, { sittingId }) => new MailStore().about(tx, sittingId),
  'MailStore.lockAbout': (tx, { sittingId }) => new MailStore().lockAbout(tx, sittingId),
  'SettledStore.of': (tx, { sittingId }) => new SettledStore().of(tx, MADE_DAY, sittingId),
  'MadeStore.ofDay': (tx) => new MadeStore().ofDay(tx, MADE_DAY),
  'MadeStore.byIds': (tx) => new MadeStore().byIds(tx, [MADE_ID]),
  'MadeStore.typedOf': (tx) => new MadeStore().typedOf(tx, [MADE_DAY.toString()]),
  'MadeStore.next': (tx) => new MadeStore().next(tx),
  'MadeStore.lockNext': (tx) => new MadeStore().lockNext(tx),
  'MadeStore.lastOfSeries': (tx) => new MadeStore().lastOfSeries(tx, SERIES_ID),
  'MadeStore.took': (tx) => new MadeStore().took(tx, [MADE_ID]),
  'MadeStore.poured': (tx) => new MadeStore().poured(tx, MADE_DAY),
  'OwedStore.steps': (tx) => new OwedStore().steps(tx),
  'OwedStore.kindDays': (tx) => new OwedStore().kindDays(tx),
  'OwedStore.done': (tx, { sittingId }) => new OwedStore().done(tx, [sittingId]),
  'OwedStore.made': async (tx, { sittingId }) => {
    await tx.run(`update sitting set state = 'made' where studio_id = $1 and sitting_id = $2`, [
      tx.studioId,
      sittingId,
    ]);
    return new OwedStore().made(tx, [], FAR.past);
  },
  'SessionsStore.templates': (tx) => new SessionsStore().templates(tx),
  'SessionsStore.byId': (tx, { learning }) => new SessionsStore().byId(tx, learning.sessionId, true),
  'SessionsStore.inStates': (tx) => new SessionsStore().inStates(tx, ['open', 'full'], FAR.past),
  'SessionsStore.byIds': (tx, { learning }) => new SessionsStore().byIds(tx, [learning.sessionId]),
  'SessionsStore.published': (tx) => new SessionsStore().published(tx, FAR.past, FAR.future, FAR.past),
  'SessionsStore.wordings': (tx) => new SessionsStore().wordings(tx),
  'SignUpsStore.byId': (tx, { learning }) => new SignUpsStore().byId(tx, learning.signUpId),
  'SignUpsStore.byIds': (tx, { learning }) => new SignUpsStore().byIds(tx, [learning.signUpId]),
  'SignUpsStore.ofSessions': (tx, { learning }) => new SignUpsStore().ofSessions(tx, [learning.sessionId]),
  'SignUpsStore.firmOf': async (tx, { learning }) => {
    const [one] = await new SignUpsStore().byIds(tx, [learning.signUpId]);
    return one ? new SignUpsStore().firmOf(tx, one.contactId) : [];
  },
  'SignUpsStore.isUndone': async (tx, { learning }) => {
    await tx.run(`update sign_up set undone = '{7}' where studio_id = $1`, [tx.studioId]);
    return (await new SignUpsStore().isUndone(tx, learning.signUpId, 7)) || null;
  },
  'SignUpsStore.undoableWithoutDay': async (tx) => {
    const [one] = await new SignUpsStore().requested(tx);
    if (one) await new SignUpsStore().setUndo(tx, one.id, 'requested');
    if (one)
      await tx.run('update sign_up set revised_at = $2 where studio_id = $1', [tx.studioId, FAR.future]);
    return new SignUpsStore().undoableWithoutDay(tx, FAR.past);
  },
  'SignUpsStore.requested': (tx) => new SignUpsStore().requested(tx),
  'SignUpsStore.students': (tx, { learning }) => new SignUpsStore().students(tx, [learning.signUpId]),
  'SignUpsStore.countTurn': (tx, { learning }) =>
    new SignUpsStore().countTurn(tx, learning.signUpId, FAR.future),
  'SignUpsStore.setState': (tx, { learning }) =>
    new SignUpsStore().setState(tx, learning.signUpId, 'signed', 'attended', { at: FAR.future }),
  'AfterStore.of': (tx, { learning }) => new AfterStore().of(tx, learning.sessionId),
  'AfterStore.onDay': (tx, { learning }) => new AfterStore().onDay(tx, learning.day),
  'AfterStore.held': (tx, { learning }) => new AfterStore().held(tx, learning.sessionId),
  'AfterStore.usedOfItems': (tx, { learning }) => new AfterStore().usedOfItems(tx, learning.sessionId),
  'AfterStore.used': (tx, { learning }) => new AfterStore().used(tx, learning.sessionId),
  'BriefingStore.of': (tx, { learning }) => new BriefingStore().of(tx, learning.sessionId),
  'BriefingStore.latest': (tx) => new BriefingStore().latest(tx),
  'SessionsStore.undecided': (tx) => new SessionsStore().undecided(tx, LATE, FAR.past),
  'TurnsStore.kept': (tx, { learning }) => new TurnsStore().kept(tx, learning.sessionId, true),
  'WaitingStore.rules': (tx) => new WaitingStore().rules(tx),
  'WaitingStore.byId': async (tx) => {
    const [offer] = await new WaitingStore().unanswered(tx);
    return offer ? new WaitingStore().byId(tx, offer.id) : null;
  },
  'WaitingStore.newest': async (tx, { refusedId }) =>
    (await new WaitingStore().newest(tx, [refusedId])).length,
  'WaitingStore.unanswered': (tx) => new WaitingStore().unanswered(tx),
  'WaitingStore.expired': (tx) => new WaitingStore().expired(tx, FAR.future),
  'WaitingStore.passedOver': async (tx) => [...(await new WaitingStore().passedOver(tx, FAR.past)).keys()],
  'WaitingStore.experience': async (tx) => (await new WaitingStore().experience(tx, FAR.past)).placesGiven,
  'WaitingStore.freed': (tx) => new WaitingStore().freed(tx, FAR.past, FAR.past),
  'PlansStore.byId': (tx, { planId }) => new PlansStore().byId(tx, planId, false),
  'PlansStore.latest': (tx) => new PlansStore().latest(tx, 10),
  'PlansStore.entries': (tx, { planId }) => new PlansStore().entries(tx, planId),
  'SittingsStore.countIn': (tx) => new SittingsStore().countIn(tx, 'confirmed'),
  'SittingsStore.byIds': (tx, { sittingId }) => new SittingsStore().byIds(tx, [sittingId]),
  'MailStore.firstMessageId': (tx, { sittingId, mailTo }) =>
    new MailStore().firstMessageId(tx, sittingId, mailTo),
  'WordingsStore.of': (tx) => new WordingsStore().of(tx, 'confirmed', 'en'),
  'WordingsStore.newest': (tx) => new WordingsStore().newest(tx),
  'WordingsStore.told': (tx) =>
    new WordingsStore().told(tx, ['asked', 'confirmed'], { kind: 'confirmed', change: '' }),
  'MailStore.latest': (tx) => new MailStore().latest(tx, 100),
  'MailStore.byId': (tx, { mailId }) => new MailStore().byId(tx, mailId),
  'MailStore.untold': async (tx, { mailId }) => {
    await tx.run(
      `update mail set kind = 'confirmed', by_hand = 'letter' where studio_id = $1 and mail_id = $2`,
      [tx.studioId, mailId],
    );
    return new MailStore().untold(tx);
  },
  'MailStore.newest': async (tx, { sittingId }) => (await new MailStore().newest(tx, [sittingId])).size,
  'MailStore.told': async (tx) => {
    await tx.run(`update mail set told_at = created_at, told_by = 'Isaura' where studio_id = $1`, [
      tx.studioId,
    ]);
    return new MailStore().told(tx, FAR.past);
  },
  'MailStore.parkedAtHome': async (tx) => {
    await tx.run(`update mail set state = 'parked', by_hand = 'letter' where studio_id = $1`, [tx.studioId]);
    return new MailStore().parkedAtHome(tx);
  },
  'MailStore.lockTurn': async (tx, { mailId }) => {
    const mail = await new MailStore().byId(tx, mailId);
    return mail ? new MailStore().lockTurn(tx, mail.about_id, mail.sequence) : null;
  },
  'MailStore.lockHeld': async (tx, { sittingId }) => {
    await hold(tx);
    return new MailStore().lockHeld(tx, sittingId);
  },
  'MailStore.heldCounts': async (tx, { sittingId }) => {
    await hold(tx);
    return (await new MailStore().heldCounts(tx, [sittingId])).size;
  },
  'VouchersStore.all': (tx) => new VouchersStore().all(tx),
  'VouchersStore.locked': async (tx) => {
    const [voucher] = await new VouchersStore().all(tx);
    return voucher ? new VouchersStore().locked(tx, voucher.id) : null;
  },
  'VouchersStore.lockedByNumber': (tx) => new VouchersStore().lockedByNumber(tx, '1'),
  'VouchersStore.heldAmong': (tx, { sittingId }) => new VouchersStore().heldAmong(tx, [sittingId]),
  'UndoStore.newest': (tx, { sittingId }) => new UndoStore().newest(tx, sittingId),
  'UndoStore.isAct': async (tx, { sittingId }) => {
    const act = await new UndoStore().newest(tx, sittingId);
    return (await new UndoStore().isAct(tx, sittingId, act?.turns ?? 0)) ? 1 : 0;
  },
  'UndoStore.isUndone': async (tx, { sittingId }) => {
    await tx.run('update sitting_act set undone_at = at where studio_id = $1', [tx.studioId]);
    const act = await new UndoStore().newest(tx, sittingId);
    return (await new UndoStore().isUndone(tx, sittingId, act?.turns ?? 0)) ? 1 : 0;
  },
  'UndoStore.undoneSince': async (tx, { sittingId }) => {
    await tx.run('update sitting_act set undone_at = at where studio_id = $1', [tx.studioId]);
    return new UndoStore().undoneSince(tx, sittingId, 0);
  },
  'MailStore.lease': (tx, { mailId }) => new MailStore().lease(tx, mailId, FAR.past, FAR.future),
  historyOf: (tx, { sittingId }) => historyOf(tx, sittingId),
  historyBefore: (tx) => historyBefore(tx, null, 10),
  'once, its answers': (tx) =>
    tx.many(z.object({ key: z.string() }), 'select key from idempotency where studio_id = $1', [tx.studioId]),
  'RoomStore.confirm': (tx, { occupancyId }) => new RoomStore().confirm(tx, occupancyId, FAR.future),
  'RoomStore.move': async (tx, { occupancyId }) => {
    const given = await new RoomStore().giveBack(tx, occupancyId, true, FAR.future);
    return new RoomStore().move(tx, given, FAR.future);
  },
  'RoomStore.giveBackAll': (tx, { sittingId }) => new RoomStore().giveBackAll(tx, sittingId, FAR.future),
  'RoomStore.giveBack': (tx, { occupancyId }) => new RoomStore().giveBack(tx, occupancyId, true, FAR.future),
};
