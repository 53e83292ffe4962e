// What the pages of mixing and ordering share: for what something is, what cannot be had and what might help.
import { formatQuantity } from '../../lib/quantity-text.js';
import { Table } from '../../platform/html/kit/table.js';
import type { Lacking, Purpose } from '../../stock/mixing.calc.js';
import { lastChance, supplyOf } from '../../stock/plan.calc.js';
import type { Receipt } from '../../stock/receipts.schemas.js';
import { lackInWords } from '../outlook-words.calc.js';
import { shortDay } from '../words.calc.js';

const DAYS_TOLD = 3;

/** "for Friday 14 May, Friday 21 May and 2 days more; for Iodised collodion, to be mixed by Friday 7 May". */
export function purposeInWords({ days, into }: Purpose): string {
  const told = days.slice(0, DAYS_TOLD).map(shortDay).join(', ');
  const left = days.length - DAYS_TOLD;
  const more = left > 0 ? ` and ${left} ${left === 1 ? 'day' : 'days'} more` : '';
  const byItem = new Map(into.map(({ item, mixBy }) => [item.id, { item, mixBy }]));
  return [
    ...(days.length > 0 ? [`for ${told}${more}`] : []),
    ...[...byItem.values()].map(({ item, mixBy }) => `for ${item.name}, to be mixed by ${shortDay(mixBy)}`),
  ].join('; ');
}

interface CannotBeHadProps {
  lacking: Lacking[];
  /** How it would come: the word for the act. */
  act: 'mixed' | 'ordered';
  /** What is on its way, some of which might be hastened. */
  onTheWay: Receipt[];
}

/** What is short and not planned: what the owner's own limit leaves out first. Nothing when all can be had. */
export function CannotBeHad({ lacking, act, onTheWay }: CannotBeHadProps) {
  const limited = lacking.filter(({ reason }) => reason === 'over the limit');
  const never = lacking.filter(({ reason }) => reason !== 'over the limit');
  return (
    <>
      {limited.length > 0 && <OverTheLimit lacking={limited} act={act} />}
      {never.length > 0 && <Never lacking={never} act={act} onTheWay={onTheWay} />}
    </>
  );
}

function OverTheLimit({ lacking, act }: Omit<CannotBeHadProps, 'onTheWay'>) {
  const verb = act === 'mixed' ? 'Mix' : 'Order';
  return (
    <>
      <h2>More than you keep at most</h2>
      <p>
        This stays short: all of it would be more than you keep at most, so it is not proposed. No day is
        closed for it. You may get it all the same, or keep more.
      </p>
      <Table
        caption="What stays short because of what you keep at most"
        columns={['What', 'How much stays short', 'You keep at most', `${verb} by`].map((head) => ({ head }))}
        rows={lacking.map(({ item, quantity, day, into }) => {
          const by = lastChance(supplyOf(item), day);
          return [
            `${item.name}${into ? `, for ${into.name}` : ''}`,
            formatQuantity(quantity, item.unit, 'up'),
            item.mostOnHand === null ? '' : formatQuantity(item.mostOnHand, item.unit),
            by === null ? '' : `${shortDay(by)}, needed on ${shortDay(day)}`,
          ];
        })}
      />
    </>
  );
}

function Never({ lacking, act, onTheWay }: CannotBeHadProps) {
  return (
    <>
      <h2>Cannot be had in time</h2>
      <Table
        caption={`What cannot be ${act} in time`}
        columns={['What', 'How much', 'First needed', 'Why, and what may help'].map((head) => ({ head }))}
        rows={lacking.map((one) => [
          one.item.name,
          formatQuantity(one.quantity, one.item.unit, 'up'),
          `${shortDay(one.day)}${one.into ? `, for ${one.into.name}` : ''}`,
          whyInWords(one, act, onTheWay),
        ])}
      />
    </>
  );
}

function whyInWords(one: Lacking, act: 'mixed' | 'ordered', onTheWay: Receipt[]): string {
  const ready = act === 'mixed' ? 'ready' : 'here';
  const begun = one.readyOn ? ` ${upper(act)} today it would be ${ready} on ${shortDay(one.readyOn)}.` : '';
  const sooner = one.expedite.flatMap(({ lotId }) => onTheWay.find(({ id }) => id === lotId) ?? []);
  const hasten = sooner[0]
    ? ` Ask whether the delivery expected on ${shortDay(sooner[0].expectedOn)} can come sooner.`
    : '';
  return `${upper(lackInWords(one.reason))}.${begun}${hasten}`;
}

const upper = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
