// One thing that is kept, ahead: the picture of what is usable day by day, the same as a table, and what is to do.
import type { Temporal } from 'temporal-polyfill';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { StockChart, StockLegend } from '../../platform/html/kit/stock-chart.js';
import { Table } from '../../platform/html/kit/table.js';
import type { Horizon, ItemAhead } from '../../stock/horizon.calc.js';
import { isMixed } from '../../stock/mixing.calc.js';
import { type ProjectionDay, projectionOf } from '../../stock/projection.calc.js';
import { shortDay } from '../words.calc.js';
import { shelfPath } from './frame.pages.js';

/** How far ahead the picture looks, and how many changes the table tells. */
const MONTHS = 18;
const CHANGES_TOLD = 60;

/** Nothing when the item is not known to the look ahead. */
export function ItemAheadSection({
  visit,
  horizon,
  itemId,
}: {
  visit: StaffVisit;
  horizon: Horizon;
  itemId: string;
}) {
  const ahead = horizon.items.get(itemId);
  if (!ahead) return null;
  const { item } = ahead;
  const until = horizon.today.add({ months: MONTHS });
  const { days, suggested } = projectionOf(ahead, horizon.today, until);
  const far = lastOf(days, suggested, horizon.today, until);
  const changes = days.slice(1);
  return (
    <>
      <h2>Ahead</h2>
      <p>{aheadInWords(ahead, days)}</p>
      {suggested.length > 0 && (
        <p class="alone">
          <a href={shelfPath(visit, isMixed(ahead) ? '/mixing' : '/orders')}>
            {isMixed(ahead) ? 'What is to be mixed' : 'What is to be ordered'}
          </a>
        </p>
      )}
      <StockChart
        days={days}
        until={far}
        suggested={suggested}
        unit={item.unit}
        label={`${item.name}: usable on hand from today to ${dayInWords(far)}. The table below tells the same.`}
      />
      <StockLegend />
      {changes.length > 0 && (
        <details>
          <summary>As a table</summary>
          <Table
            caption={`Days on which something changes${changes.length > CHANGES_TOLD ? `, the first ${CHANGES_TOLD}` : ''}`}
            columns={[
              { head: 'Day' },
              { head: 'What happens' },
              { head: 'Then on hand', figures: true },
              { head: 'Of it set aside', figures: true },
            ]}
            rows={changes
              .slice(0, CHANGES_TOLD)
              .map((day) => [
                shortDay(day.day),
                changeInWords(day, item.unit),
                formatQuantity(day.onHand, item.unit),
                formatQuantity(day.setAside, item.unit),
              ])}
          />
        </details>
      )}
    </>
  );
}

/** The picture ends with the last change, and shows a quarter of a year at least. */
function lastOf(
  days: ProjectionDay[],
  suggested: { day: Temporal.PlainDate }[],
  today: Temporal.PlainDate,
  until: Temporal.PlainDate,
): Temporal.PlainDate {
  const span = Math.max(0, ...[...days, ...suggested].map(({ day }) => today.until(day).days));
  return span + 14 > today.until(until).days ? until : today.add({ days: Math.max(92, span + 14) });
}

function aheadInWords({ item }: ItemAhead, days: ProjectionDay[]): string {
  const amount = (quantity: bigint) => formatQuantity(quantity, item.unit, 'up');
  const short = days.filter((one) => one.short > 0n);
  const [first] = short;
  const used = days.reduce((sum, one) => sum + one.used, 0n);
  const lost = days.reduce((sum, one) => sum + one.ranOut, 0n);
  const missing = short.reduce((sum, one) => sum + one.short, 0n);
  return [
    used === 0n ? 'Nothing of it is set aside.' : `Set aside for days to come: ${amount(used)}.`,
    first ? `Missing: ${amount(missing)}, first on ${shortDay(first.day)}.` : 'Nothing is missing.',
    ...(lost > 0n ? [`Will run out unused: ${amount(lost)}.`] : []),
  ].join(' ');
}

function changeInWords(
  { came, used, ranOut, short }: ProjectionDay,
  unit: ItemAhead['item']['unit'],
): string {
  const amount = (quantity: bigint) => formatQuantity(quantity, unit);
  return [
    ...(came > 0n ? [`comes or is ripe: ${amount(came)}`] : []),
    ...(ranOut > 0n ? [`ran out: ${amount(ranOut)}`] : []),
    ...(used > 0n ? [`used: ${amount(used)}`] : []),
    ...(short > 0n ? [`missing: ${amount(short)}`] : []),
  ].join('; ');
}
