// A studio in which nearly every table has a row, for tests of what another studio may see of it.
import { Temporal } from 'temporal-polyfill';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { LinksService } from '../../src/accounts/links.service.js';
import { DaylightService } from '../../src/daylight/daylight.service.js';
import { SystemRandom } from '../../src/platform/clock.js';
import { DayLetterStore } from '../../src/reminders/day-letter.store.js';
import { MailStore } from '../../src/reminders/mail.store.js';
import { WordingsService } from '../../src/reminders/wordings.service.js';
import { RemindersStore } from '../../src/reminders/reminders.store.js';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { ConsentsService } from '../../src/sittings/consents.service.js';
import { EndingsStore } from '../../src/sittings/endings.store.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { PlansService } from '../../src/sittings/plans.service.js';
import { WishesStore } from '../../src/sittings/wishes.store.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { FormulasService } from '../../src/stock/formulas.service.js';
import { ItemsService } from '../../src/stock/items.service.js';
import { PouringService } from '../../src/stock/pouring.service.js';
import { ReceiptsService } from '../../src/stock/receipts.service.js';
import { DEFAULT_WEIGHTS } from '../../src/waiting/planner-points.calc.js';
import { DEFAULT_WAITING_RULES } from '../../src/waiting/rules.schemas.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { turnSecondStepOn } from './account-pages.js';
import { writeDays } from './actuals.js';
import type { TestHouse } from './house.js';
import { typeSomethingIn } from './made.js';
import { oweSomething } from './owed.js';
import { enterBath, prepareFor, putAside } from './prepared.js';
import { recordSomething } from './plate-calls.js';
import { eraseSomebody } from './privacy-calls.js';
import { bringSomethingIn } from './bring-in-calls.js';
import { failOutside } from './outside-calls.js';
import { giveSurprise } from './vouchers.js';
import type { Belongings } from './store-calls.js';
import { approve, askForSitting, openStarts, PASSWORD, type TestStudio } from './studio.js';
import { fillTeaching } from './teaching.js';

/** A request with a place, its letters, a session: so that nearly every table has a row. */
export async function fillStudio(house: TestHouse, studio: TestStudio): Promise<Belongings> {
  const { sittingId } = await askForSitting(house, studio);
  const [start] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-04-02' });
  await approve(house, studio, sittingId, start ?? '');
  await house.work();
  await house.app.get(DaylightService).enterNote(studio.id, studio.owner, new SystemRandom().id(), {
    date: '2026-08-14',
    time: '12:30',
    seconds: '9',
    weather: 'clear',
    lens: 'Petzval 300 mm',
    fNumber: '4',
    framing: 'head',
    bottle: 'June A',
    verdict: 'good',
  });
  const words = { subject: 'Come, {name}', body: 'You have a place.', seen: 0 };
  await house.app.get(WordingsService).keep(studio.id, studio.owner, 'confirmed', 'en', words);
  await house.db.inStudio(studio.id, (tx) => writeDays(house, tx, studio));
  await prepareFor(house, studio, '2027-04-02');
  const yes = { sitter: '', purpose: 'contact', version: '1', answer: 'agree' };
  await house.app.get(ConsentsService).answer(studio.id, { who: studio.owner, sittingId }, yes);
  const bathId = await enterBath(house, studio);
  await putAside(house, studio, `bottle:${studio.lots.varnish}`);
  const learning = await fillTeaching(house, studio);
  const { supplierId, receiptId, formulaId } = await stockActs(house, studio);
  const { refusedId, planId } = await offersOn(house, studio);
  const session = await house.app.get(AccountsService).signIn(studio.id, studio.owner.email, PASSWORD);
  await turnSecondStepOn(house, studio, studio.owner);
  return house.db.inStudio(studio.id, async (tx) => {
    const [view] = await house.app.get(SittingViews).inStates(tx, { lat: 0, lon: 0 } as never, ['confirmed']);
    const links = house.app.get(LinksService);
    const feed = await links.ensure(tx, 'feed', studio.owner.id, 'owner');
    const [mail] = await new MailStore().latest(tx, 1);
    await tx.run(`update mail set state = 'waiting'`);
    await tx.run(
      `insert into lot (studio_id, lot_id, item_id, label, usable_from, on_hand, state)
       values ($1, $2, $3, 'Emptied', date '2026-11-20', 0, 'gone')`,
      [studio.id, new SystemRandom().id(), Object.values(studio.items)[0]?.id],
    );
    await new WishesStore().keep(tx, sittingId, 'A second plate.', house.clock.now());
    const endings = new EndingsStore();
    await endings.setArrived(tx, sittingId, house.clock.now());
    await oweSomething(house, tx, sittingId);
    await eraseSomebody(tx);
    const rules = await house.app.get(Reminding).rules(tx);
    await new RemindersStore().replaceRules(tx, rules);
    await new DayLetterStore().save(tx, { hour: 6, on: true });
    await house.app.get(Reminding).replan(tx, sittingId);
    await giveSurprise(house, tx, sittingId);
    await failOutside(tx, house.clock.now());
    await bringSomethingIn(tx, sittingId, house.clock.now());
    await typeSomethingIn(tx, studio, { sittingId, bathId });
    await recordSomething(tx, studio, sittingId);
    await endings.setUsed(tx, sittingId, [{ lotId: studio.lots.collodion, quantity: 1n }]);
    return {
      slug: studio.slug,
      ownerId: studio.owner.id,
      email: studio.owner.email,
      session,
      feedToken: links.token(feed),
      linkId: feed.id,
      contactId: view?.contact.id ?? '',
      sittingId,
      refusedId,
      planId,
      occupancyId: view?.place?.id ?? '',
      itemIds: Object.values(studio.items).map((item) => item.id),
      lotIds: [studio.lots.collodion, studio.lots.fixer],
      supplierId,
      receiptId,
      formulaId,
      bathId,
      mailId: mail?.mail_id ?? '',
      mailTo: view?.contact.email ?? '',
      learning,
    };
  });
}

/** A rule of the waiting list, an open offer, one that was refused, and a plan for who still waits. */
async function offersOn(house: TestHouse, { id, owner: who, ...studio }: TestStudio) {
  const rules = { ...DEFAULT_WAITING_RULES, mode: 'by hand' } as const;
  await house.app.get(WaitingService).saveRules(id, who, rules);
  const offers = house.app.get(OffersService);
  const start = Temporal.PlainDateTime.from('2027-04-09T11:15');
  const refused = await askForSitting(house, { id, owner: who, ...studio });
  await offers.make(id, who, refused.sittingId, start);
  await offers.refuse(id, { token: refused.token });
  const open = await askForSitting(house, { id, owner: who, ...studio });
  await offers.make(id, who, open.sittingId, start.with({ hour: 13, minute: 0 }));
  const planId = await house.app.get(PlansService).propose(id, who, DEFAULT_WEIGHTS);
  return { refusedId: refused.sittingId, planId };
}

/** A supplier, an order, a formula, and a bottle that went into another. */
async function stockActs(house: TestHouse, { id, owner: who, items, lots }: TestStudio) {
  const named = { name: 'Glasshouse Supply', contact: '', leadDays: '10', note: '' };
  const { supplierId } = await house.app.get(ItemsService).editSupplier(id, who, null, named);
  const asked = { itemId: items.wholeGlass.id, quantity: '5' };
  const { receiptId } = await house.app.get(ReceiptsService).order(id, who, asked);
  const some = { quantity: '1 ml', label: 'Small bottle', note: '' };
  await house.app.get(PouringService).decant(id, who, lots.fixer, some);
  const thin = { solventLotId: lots.fixer, quantity: '1 ml', reason: 'too thick' };
  await house.app.get(PouringService).thin(id, who, lots.collodion, thin);
  const library = { starterKey: 'fixer-hypo-20-percent', itemId: items.fixer.id };
  const { formulaId } = await house.app.get(FormulasService).take(id, who, library);
  return { supplierId, receiptId, formulaId };
}
