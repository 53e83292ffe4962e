// Preparation and baths as the people of a test studio would have them: a task ticked and moved, a room noted, what a
// day takes; a bath with a ledger, and a bottle that was put aside.
import { SystemRandom } from '../../src/platform/clock.js';
import { BathLedgerService } from '../../src/stock/bath-ledger.service.js';
import { BathsService } from '../../src/stock/baths.service.js';
import { DaysService } from '../../src/stock/days.service.js';
import { FaultsService } from '../../src/stock/faults.service.js';
import { PreparationService } from '../../src/stock/preparation.service.js';
import { USUAL_RULES } from '../../src/stock/preparation-rules.calc.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

const random = new SystemRandom();

/** The usual rules by what they are about. */
export const ruleOf = (word: RegExp): string => {
  const rule = USUAL_RULES.find((one) => word.test(one.what));
  if (!rule) throw new Error(`No usual rule is about ${word}.`);
  return rule.id;
};

/** @param day a day with a sitting, as "2027-04-02" */
export async function prepareFor(house: TestHouse, studio: TestStudio, day: string): Promise<void> {
  const preparation = house.app.get(PreparationService);
  await preparation.tick(studio.id, studio.assistant, { day, rule: ruleOf(/glass/), done: 'yes' });
  await preparation.move(studio.id, studio.owner, { day, rule: ruleOf(/bath/), to: day });
  await preparation.noteDay(studio.id, studio.owner, {
    day,
    roomTemperature: '17',
    humidity: '60',
    note: '',
  });
  await house.app.get(DaysService).saveTakes(studio.id, studio.owner, {
    testPlates: '2',
    testSizeId: studio.sizes.half.id,
    [`item-${studio.items.developer.id}`]: '100 mL',
  });
}

/** What is told of a bath where a test says nothing else: two litres of 9 per cent, for whole plates. */
export const BATH = {
  name: 'Tank A',
  tank: 'upright tank',
  volume: '2000',
  leastVolume: '1500',
  targetStrength: '90',
  leastStrength: '70',
  careAfterPlates: '40',
  lotId: '',
  strength: '90',
  inIt: '',
};

/** @returns the bath's id */
export async function enterBath(
  house: TestHouse,
  studio: TestStudio,
  said: Partial<typeof BATH> & { plateSizeId?: string } = {},
): Promise<string> {
  const id = random.id();
  const whole = { ...BATH, plateSizeId: studio.sizes.whole.id, ...said };
  await house.app.get(BathsService).add(studio.id, studio.owner, id, whole);
  return id;
}

/** A line of a bath's ledger, by the assistant. @returns the line's id */
export async function writeDown(
  house: TestHouse,
  studio: TestStudio,
  bathId: string,
  said: Record<string, string>,
): Promise<string> {
  const id = random.id();
  await house.app.get(BathLedgerService).enter(studio.id, studio.assistant, bathId, id, said);
  return id;
}

/** Something is off. @param what "bath:ID" or "bottle:ID" @returns the id of the entry in the log */
export async function putAside(
  house: TestHouse,
  studio: TestStudio,
  what: string,
  seen = 'fog',
): Promise<string> {
  const id = random.id();
  await house.app.get(FaultsService).off(studio.id, studio.assistant, id, { what, seen });
  return id;
}
