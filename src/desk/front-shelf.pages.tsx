// What the shelf wants, on the desk's front page: days without a silver bath, and what is to be mixed or ordered soon.
import { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../accounts/visits.service.js';
import { formatQuantity } from '../lib/quantity-text.js';
import { counted, dayInWords } from '../lib/words.js';
import { Notice } from '../platform/html/kit/notices.js';
import { StockMark } from '../platform/html/kit/stock-mark.js';
import { Table } from '../platform/html/kit/table.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { NO_BATH_WORDS } from '../stock/due.calc.js';
import type { ToDo } from '../stock/to-do.calc.js';
import { lackInWords } from './outlook-words.calc.js';
import { shortDay } from './words.calc.js';

interface WithoutBathFor {
  reason: NoBath;
  days: Temporal.PlainDate[];
}

/** Days no bath takes, told once for each reason. */
export function byReason(noBath: Map<string, NoBath>): WithoutBathFor[] {
  const reasons = [...new Set(noBath.values())];
  return reasons.map((reason) => ({
    reason,
    days: [...noBath].flatMap(([date, why]) => (why === reason ? [Temporal.PlainDate.from(date)] : [])),
  }));
}

/** Days with plates that no silver bath takes as things stand. */
export function Bathless({ visit, days: all }: { visit: StaffVisit; days: WithoutBathFor[] }) {
  return (
    <Notice tone="warn">
      {all.map(({ reason, days: [first, ...later] }) => (
        <p key={reason}>
          <a href={`/s/${visit.studio.slug}/desk/shelf/baths`}>A silver bath</a> for{' '}
          {first && dayInWords(first)}
          {later.length > 0 && ` and ${counted(later.length, 'later day')}`}: {NO_BATH_WORDS[reason]}.
        </p>
      ))}
    </Notice>
  );
}

export function ShelfToDo({ visit, todo }: { visit: StaffVisit; todo: ToDo[] }) {
  const shelf = `/s/${visit.studio.slug}/desk/shelf`;
  return (
    <>
      <Table
        caption="To be mixed or ordered in the next two weeks"
        columns={['What', 'How much', 'Do', 'For'].map((head) => ({ head }))}
        rows={todo.map(({ item, quantity, action, by, why, neededOn, into }) => [
          item.name,
          formatQuantity(quantity, item.unit, 'up'),
          <StockMark key="do" state={by ? `${action} by` : 'cannot be had'} by={by} near />,
          [
            into.length > 0 ? `${into.map((one) => one.item.name).join(', ')}, by ` : '',
            shortDay(neededOn),
            by === null ? `; ${lackInWords(why)}` : '',
          ].join(''),
        ])}
        empty="Nothing: what is needed is on the shelf or on its way, or its time has not come."
      />
      <p>
        All that is ahead: <a href={`${shelf}/mixing`}>to mix</a>, <a href={`${shelf}/orders`}>to order</a>.
      </p>
    </>
  );
}
