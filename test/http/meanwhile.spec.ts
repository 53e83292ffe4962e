// Two people change the same thing: whoever is second is told what the first wrote, beside what they typed themselves.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { refuseChanged, SEEN_FIELD, seenOf } from '../../src/platform/seen.js';
import { USUAL_STEPS } from '../../src/plates/owed-steps.calc.js';
import { USUAL_FIELDS } from '../../src/plates/record.calc.js';
import { DEFAULT_REMINDER_RULES } from '../../src/reminders/reminder-rules.schemas.js';
import { USUAL_RULES } from '../../src/stock/preparation-rules.calc.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf } from '../support/page-forms.js';
import { enterBath } from '../support/prepared.js';
import { writePlate } from '../support/plates-made.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { teachingDay } from '../support/teaching.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let one: Visitor;
let other: Visitor;
const at: Record<string, At> = {};

/** The page of a form, and the address it is sent to. */
interface At {
  page: string;
  action: string;
}

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  const desk = `/s/${studio.slug}/desk`;
  [one, other] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
  const same = (path: string): At => ({ page: `${desk}${path}`, action: `${desk}${path}` });
  const inList = (path: string, id = ''): At => ({
    page: `${desk}${path}?form=${id}`,
    action: `${desk}${path}/${id}`,
  });
  at.studio = same('/settings/studio');
  at.item = same(`/shelf/items/${studio.items.collodion.id}`);
  const day = await teachingDay(house, studio);
  at.template = same(`/teaching/templates/${day.templateId}`);
  at.bench = same(`/teaching/${day.sessionId}/bench`);
  at.briefing = same(`/teaching/${day.sessionId}/briefing`);
  const bathId = await enterBath(house, studio, { name: 'Tall tank' });
  at.bath = { page: `${desk}/shelf/baths/${bathId}?do=edit`, action: `${desk}/shelf/baths/${bathId}` };
  at.safety = { page: `${desk}/teaching`, action: `${desk}/teaching/safety` };
  at.labels = { page: `${desk}/plates/labels`, action: `${desk}/plates/labels/sheet` };
  at.keeping = same('/settings/keeping');
  at['day letter'] = same('/mail/day-letter');
  at.reminder = inList('/mail/reminders', DEFAULT_REMINDER_RULES[0]?.id);
  at.preparation = inList('/prepare/rules', USUAL_RULES[0]?.id);
  await one.get(`${desk}/prepare/rules`);
  await one.post(`${desk}/prepare/takes`, { testPlates: '1', testSizeId: studio.sizes.whole.id });
  at.takes = { page: `${desk}/prepare/rules`, action: `${desk}/prepare/takes` };
  at.owed = inList('/owed/steps', USUAL_STEPS[0]?.id);
  at.line = inList('/plates/fields', USUAL_FIELDS[0]?.id);
  await writePlate(house, studio, { number: 41 });
  at.plate = { page: `${desk}/plates/41`, action: `${desk}/plates/41/record` };
  const added = async (path: string, fields: Record<string, string>, id: RegExp): Promise<string> => {
    await one.get(`${desk}${path}?form=new`);
    const { html } = await one.postAndFollow(`${desk}${path}/new`, fields);
    return id.exec(html)?.[1] ?? '';
  };
  const seriesId = await added('/plates/series', { name: 'Wharves', about: '' }, /series\/([0-9a-f-]{36})/);
  at.series = same(`/plates/series/${seriesId}`);
  const supplier = { 'new-name': 'Alder Chemicals', 'new-contact': '', 'new-leadDays': '', 'new-note': '' };
  supplierId = await added('/shelf/suppliers', supplier, /suppliers\/([0-9a-f-]{36})/);
  at.supplier = {
    page: `${desk}/shelf/suppliers`,
    action: `${desk}/shelf/suppliers/${supplierId}`,
  };
  const voucher = { number: '7', buyer: 'Ines Calloway', buyerReach: '', forWhom: '', worth: '' };
  at.voucher = inList('/vouchers', await added('/vouchers', voucher, /form=([0-9a-f-]{36})#form/));
});
afterAll(() => house.close());

let supplierId = '';

/** Of which form, which of its boxes, what the one and the other write there, and an answer that is wrong. */
const FORMS: [what: string, field: string, ones: string, others: string, slip: [string, string] | null][] = [
  ['studio', 'telephone', '01632 960001', '01632 960002', ['name', '']],
  ['item', 'storage', 'cellar', 'attic', ['name', '']],
  ['template', 'bring', 'An apron.', 'Two aprons.', ['name', '']],
  ['bench', 'stations/cameras', '3', '5', ['stations/sinks', 'x']],
  ['briefing', 'hospital', 'On the hill.', 'By the bridge.', ['youngest', 'x']],
  ['bath', 'note', 'Milky.', 'Clear again.', ['name', '']],
  ['safety', 'wording', 'Gloves on.', 'Gloves and goggles on.', ['wording', '']],
  ['labels', 'margin', '4', '5', ['margin', 'x']],
  ['keeping', 'refusedDays', '40', '50', ['unansweredDays', '1']],
  ['day letter', 'hour', '5', '6', ['hour', '3']],
  ['reminder', 'hour', '9', '11', ['days', 'x']],
  ['preparation', 'note', 'Two cloths.', 'Three cloths.', ['what', '']],
  ['takes', 'testPlates', '3', '4', ['testPlates', 'x']],
  ['owed', 'what', 'Scan both', 'Scan all', ['days', 'x']],
  ['line', 'label', 'Names', 'Who', ['label', '']],
  ['plate', 'names', 'Corin', 'Corin Ashby', null],
  ['series', 'about', 'By the river.', 'By the sea.', ['name', '']],
  ['supplier', 'contact', '01632 960003', '01632 960004', ['name', '']],
  ['voucher', 'worth', 'one whole plate', 'two plates', ['buyer', '']],
];

/** The fields of a supplier's form are named by it. */
const named = (what: string, field: string) => (what === 'supplier' ? `${supplierId}-${field}` : field);

const shown = async (what: string, visitor: Visitor) => {
  const { page, action } = at[what] as At;
  return fieldsOf((await visitor.get(page)).html, action);
};

describe.each(FORMS)('of two who change the same %s', (what, box, ones, others) => {
  const shownTo = (visitor: Visitor) => shown(what, visitor);

  it('the second is told, sees both, and puts theirs in its place only knowingly', async () => {
    const [{ action }, field] = [at[what] as At, named(what, box)];
    const shown = await shownTo(one);
    const alsoShown = await shownTo(other);
    expect(alsoShown[SEEN_FIELD]).toBe(shown[SEEN_FIELD]);
    expect((await one.post(action, { ...shown, [field]: ones })).status).toBe(303);

    const told = await other.post(action, { ...alsoShown, [field]: others });
    expect(told.status).toBe(409);
    expect(errorAt(told.html, field)).toBe(`Meanwhile it says: ${ones}`);
    const again = fieldsOf(told.html, action);
    expect(again[field]).toBe(others);
    expect((await shownTo(one))[field]).toBe(ones);
    expect((await other.post(action, again)).status).toBe(303);
    expect((await shownTo(one))[field]).toBe(others);
  });

  it('would lose what the first wrote without the mark', async () => {
    const [{ action }, field] = [at[what] as At, named(what, box)];
    const { [SEEN_FIELD]: _, ...unmarked } = await shownTo(one);
    await one.post(action, { ...(await shownTo(one)), [field]: ones });
    expect((await one.post(action, { ...unmarked, [field]: others })).status).toBe(303);
    expect((await shownTo(one))[field]).toBe(others);
  });
});

it.each(
  FORMS.flatMap(([what, box, ones, others, slip]) =>
    slip ? [[what, box, ones, others, ...slip] as const] : [],
  ),
)(
  'a slip in between does not make the first change of %s unseen',
  async (what, box, ones, others, slipBox, slip) => {
    const [{ action }, field, wrong] = [at[what] as At, named(what, box), named(what, slipBox)];
    const before = await shown(what, other);
    await one.post(action, { ...(await shown(what, one)), [field]: ones });
    const slipped = await other.post(action, { ...before, [field]: others, [wrong]: slip });
    expect(slipped.status).toBe(422);
    const mended = { ...fieldsOf(slipped.html, action), [field]: others };
    if (wrong !== field) mended[wrong] = before[wrong] ?? '';
    expect((await other.post(action, mended)).status).toBe(409);
  },
);

it('a mark is the same for the same answers and for no others; without one nothing is refused', () => {
  const answers = fc.dictionary(fc.constantFrom('a', 'b', 'c'), fc.constantFrom('', 'x', 'y'));
  fc.assert(
    fc.property(answers, answers, (sent, stands) => {
      const same = ['a', 'b', 'c'].every((name) => (sent[name] ?? '') === (stands[name] ?? ''));
      const refused = (mark: string | undefined) => {
        try {
          refuseChanged({ ...sent, ...(mark !== undefined && { [SEEN_FIELD]: mark }) }, stands);
          return false;
        } catch {
          return true;
        }
      };
      expect(refused(undefined)).toBe(false);
      expect(refused(seenOf(stands))).toBe(false);
      if (same) expect(refused('an old mark')).toBe(false);
      const differs = Object.keys(stands).some((name) => (sent[name] ?? '') !== stands[name]);
      expect(refused('an old mark')).toBe(differs);
    }),
  );
  expect(seenOf({ a: '1', b: '2' })).toBe(seenOf({ b: '2', a: '1' }));
});
