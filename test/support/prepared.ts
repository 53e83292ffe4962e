// Preparation as the people of a test studio would have it: a task ticked and moved, a room noted, what a day takes.
import { DaysService } from '../../src/stock/days.service.js';
import { PreparationService } from '../../src/stock/preparation.service.js';
import { USUAL_RULES } from '../../src/stock/preparation-rules.calc.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

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
