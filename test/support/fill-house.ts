// What the house is filled with that the browser tests look at: people who have asked, wait, sit and were declined.
import { Temporal } from 'temporal-polyfill';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { CorrectionsService } from '../../src/sittings/corrections.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { makeColleagues } from './account-pages.js';
import { writeDays } from './actuals.js';
import { sitLastFriday } from './day-pages.js';
import { fillBook } from './book-pages.js';
import type { Places, Told } from './every-page.js';
import { takeFormulas } from './formula-pages.js';
import type { TestHouse } from './house.js';
import { bringSomethingIn } from './bring-in-calls.js';
import { failOutside } from './outside-calls.js';
import { makePlans } from './plan-pages.js';
import { giveVouchers, makePlates, typePlatesIn } from './plate-pages.js';
import { enterBath, putAside, writeDown } from './prepared.js';
import { makeTeaching } from './teaching-pages.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from './studio.js';

/** Founds two studios: in one people have asked, got a place and been declined; the other has no open day. */
export async function fillHouse(
  house: TestHouse,
): Promise<{ places: Places; studio: TestStudio; empty: TestStudio }> {
  const studio = await foundTestStudio(house, { horizonMonths: 4, shelf: { collodion: 30_000n } });
  const empty = await foundTestStudio(house, {
    slug: 'dunlin-loft',
    email: 'desk@dunlin-loft.example',
    exposureCapSeconds: 1,
  });
  const untold = await sitLastFriday(house, studio);
  const { whole, half } = studio.sizes;
  const waiting = await askForSitting(house, studio, {
    name: 'Linnea Harrow',
    sitters: ['Linnea Harrow', 'Tobias Harrow'],
    plates: [
      { plateSizeId: whole.id, sitters: [0, 1] },
      { plateSizeId: half.id, sitters: [1] },
    ],
    home: 'Bergen, Norway',
    suits: { kind: 'any', from: '2027-02-01', until: '2027-03-20' },
    hopes: 'The two of us.\nAnd a small one of him.',
    anything: 'Steps are hard for him.',
  });
  await house.app
    .get(CorrectionsService)
    .wish(studio.id, waiting.token, { words: 'A third plate, of his hands.' });
  const confirmed = await askForSitting(house, studio, {
    name: 'Ebba Fjordvik',
    reachBy: 'telephone',
    telephone: '01632 960188',
    suits: { kind: 'any', from: '2026-12-01', until: '2027-03-20' },
  });
  const [first = ''] = await openStarts(house, studio, { from: '2026-11-27', until: '2027-03-20' });
  await approve(house, studio, confirmed.sittingId, first);
  const declined = await askForSitting(house, studio, {
    name: 'Wilfred Askew',
    reachBy: 'letter',
    postalAddress: '4 Chandlery Row\nHull',
    suits: { kind: 'these', days: ['2027-03-05', '2027-03-12'] },
  });
  await house.app
    .get(DecisionsService)
    .decline(studio.id, studio.owner, declined.sittingId, 'Everything before summer is given.');
  const listed = await askForSitting(house, studio, {
    name: 'Corentin Maddock',
    suits: { kind: 'any', from: '2026-12-01', until: '2027-03-20' },
  });
  const offered = await askForSitting(house, studio, {
    name: 'Sigrid Hawksworth',
    suits: { kind: 'any', from: '2026-12-01', until: '2027-03-20' },
  });
  const list = house.app.get(ListService);
  for (const { sittingId } of [listed, offered]) await list.wait(studio.id, studio.owner, sittingId);
  const marks = { priority: '', hardship: 'Moves away in spring.', noticeDays: '7' };
  await list.mark(studio.id, studio.owner, listed.sittingId, marks);
  const offers = house.app.get(OffersService);
  const [early = '', late = ''] = await openStarts(house, studio, {
    from: '2027-02-12',
    until: '2027-03-12',
  });
  for (const start of [early, late]) {
    await offers.make(studio.id, studio.owner, offered.sittingId, Temporal.PlainDateTime.from(start));
    if (start === early) await offers.refuse(studio.id, { token: offered.token });
  }
  const [made = '', left = ''] = await openStarts(house, studio, { from: '2027-03-15', until: '2027-03-20' });
  await makePlates(house, studio, [made, left]);
  await house.db.inStudio(studio.id, (tx) => writeDays(house, tx, studio));
  await typePlatesIn(house, studio);
  await giveVouchers(house, studio, listed.sittingId);
  await fillBook(house, studio, confirmed.sittingId);
  house.mail.failures.push(Object.assign(new Error('550 no such box'), { responseCode: 550 }));
  await house.work();
  const bath = await enterBath(house, studio);
  await writeDown(house, studio, bath, {
    do: 'poured',
    day: '2026-11-24',
    plates: '12',
    plateSizeId: whole.id,
  });
  const other = await enterBath(house, studio, { name: 'Tank B' });
  const fault = await putAside(house, studio, `bath:${other}`);
  const outside = await house.db.inStudio(studio.id, (tx) => failOutside(tx, house.clock.now()));
  const bringIn = await house.db.inStudio(studio.id, (tx) =>
    bringSomethingIn(tx, confirmed.sittingId, house.clock.now()),
  );
  const home = `/s/${studio.slug}`;
  const told = ({ sittingId, token }: typeof waiting): Told => ({
    own: `${home}/place/${token}`,
    request: `${home}/desk/requests/${sittingId}`,
  });
  const places = {
    home,
    empty: `/s/${empty.slug}`,
    signInLink: await mailedLink(house, studio),
    ...(await makeColleagues(house, studio)),
    waiting: told(waiting),
    listed: told(listed),
    offered: told(offered),
    confirmed: told(confirmed),
    declined: told(declined),
    item: `${home}/desk/shelf/items/${studio.items.collodion.id}`,
    bottle: `${home}/desk/shelf/bottles/${studio.lots.collodion}`,
    bath: `${home}/desk/shelf/baths/${bath}`,
    fault: `${home}/desk/shelf/baths/off/${fault}`,
    untold,
    outside: `${home}/desk/settings/outside/${outside}`,
    bringIn: `${home}/desk/settings/bring-in/draft/${bringIn}`,
    ...(await makePlans(house, studio)),
    ...(await makeTeaching(house, studio)), // before the fixer is one of cyanide
    ...(await takeFormulas(house, studio)),
  };
  return { places, studio, empty };
}

async function mailedLink(house: TestHouse, studio: TestStudio): Promise<string> {
  await house.app.get(AccountsService).askForLink(studio.id, studio.owner.email);
  await house.work();
  const path = /\/s\/[^/\s]+\/sign-in\/\S+/.exec(house.mail.sent.at(-1)?.text ?? '')?.[0];
  if (!path) throw new Error('No sign-in link was mailed.');
  return path;
}
