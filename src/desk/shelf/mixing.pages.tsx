// What is to be mixed: how much, between which days, for whom, with the bench card, and which ingredients are missing.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { counted } from '../../lib/words.js';
import { StockMark } from '../../platform/html/kit/stock-mark.js';
import { Table } from '../../platform/html/kit/table.js';
import type { Horizon } from '../../stock/horizon.calc.js';
import { lackingOf, type ToMix, toMix } from '../../stock/mixing.calc.js';
import { reasonInWords } from '../outlook-words.calc.js';
import { shortDay } from '../words.calc.js';
import { CannotBeHad, purposeInWords } from './ahead.pages.js';
import { ShelfFrame, shelfPath } from './frame.pages.js';
import { typedAmount } from './words.calc.js';

export function MixingPage({ visit, horizon }: { visit: StaffVisit; horizon: Horizon }) {
  const all = toMix(horizon);
  const near = all.filter((one) => one.near);
  const later = all.filter((one) => !one.near);
  return (
    <ShelfFrame visit={visit} title="To mix" at="/mixing">
      <p>
        What is set aside for given places and no bottle gives, in whole batches where there is a formula.
        What falls short within two weeks is mixed together.
      </p>
      {near.length === 0 && <p class="empty">Nothing has to be mixed in the next two weeks.</p>}
      {near.map((one) => (
        <Batch key={`${one.item.id} ${one.latest}`} visit={visit} batch={one} />
      ))}
      <CannotBeHad lacking={lackingOf(horizon, true)} act="mixed" onTheWay={[]} />
      {later.length > 0 && (
        <details open={near.length === 0}>
          <summary>{counted(later.length, 'batch', 'batches')} later</summary>
          <Table
            caption="To be mixed later"
            columns={['What', 'How much', 'Between', 'For'].map((head) => ({ head }))}
            rows={later.map((one) => [
              one.item.name,
              formatQuantity(one.quantity, one.item.unit, 'up'),
              `${shortDay(one.earliest)} and ${shortDay(one.latest)}`,
              purposeInWords(one.purpose),
            ])}
          />
        </details>
      )}
    </ShelfFrame>
  );
}

function Batch({ visit, batch }: { visit: StaffVisit; batch: ToMix }) {
  const { item, quantity, batchQuantity, needed, earliest, latest, usableOn, lacking, uncounted } = batch;
  const amount = (of: bigint) => formatQuantity(of, item.unit, 'up');
  const batches = batchQuantity === null ? null : quantity / batchQuantity;
  const lasts = earliest.equals(latest) ? '' : `, not before ${shortDay(earliest)}`;
  return (
    <article class="day">
      <h2>
        <a href={shelfPath(visit, `/items/${item.id}`)}>{item.name}</a>: {amount(quantity)}
      </h2>
      <p>
        <StockMark state="mix by" by={latest} near />
        {lasts}; then usable on {shortDay(usableOn)}.
      </p>
      <p>
        {amount(needed)} needed {purposeInWords(batch.purpose)}.
        {batches !== null && batchQuantity !== null && (
          <>
            {' '}
            {batches === 1n ? 'One batch' : `${batches} batches of ${amount(batchQuantity)}`} of its formula.
          </>
        )}
      </p>
      {lacking.length > 0 && (
        <>
          <p>Missing for it:</p>
          <ul>
            {lacking.map((one) => (
              <li key={`${one.item} ${one.state} ${one.by}`}>{reasonInWords({ ...one, into: null })}</li>
            ))}
          </ul>
        </>
      )}
      {uncounted.length > 0 && (
        <p class="small">Not counted on the shelf, please look yourself: {uncounted.join(', ')}.</p>
      )}
      {batch.formulaId !== null && (
        <p class="actions">
          <a
            class="button"
            href={shelfPath(
              visit,
              `/formulas/${batch.formulaId}/bench-card?batch=${typedAmount(quantity, item.unit)}`,
            )}
          >
            Bench card<span class="unseen"> for {item.name}</span>
          </a>
        </p>
      )}
    </article>
  );
}
