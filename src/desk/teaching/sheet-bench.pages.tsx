// What the sheet of a teaching day says of the bench: what to fill from which bottle, and what is mixed first, with
// its amounts.
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Table } from '../../platform/html/kit/table.js';
import type { SessionSheet, Filled } from '../../teaching/sheets.service.js';
import { cardTable } from '../../stock/mix-card.calc.js';
import type { Mixed } from '../../stock/formulas.schemas.js';
import type { ToMixOnSheet } from '../../teaching/sheet-mixing.calc.js';

const amount = (quantity: bigint) => formatQuantity(quantity, 'uL', 'up');

export function BenchOfDay({ sheet }: { sheet: SessionSheet }) {
  const { filled, mix, bath } = sheet;
  return (
    <section>
      <h2>Mixing and filling</h2>
      <div class="together">
        <Table
          caption="To fill for the day"
          columns={[
            { head: 'What' },
            { head: 'Likely', figures: true },
            { head: 'Enough nine times in ten', figures: true },
            { head: 'From' },
            { head: 'Done', blank: true },
          ]}
          rows={filled.map((one) => [
            one.item.name,
            amount(one.estimate.likely),
            amount(one.estimate.ninety),
            fromInWords(one),
            '',
          ])}
          empty="Nothing is poured."
        />
      </div>
      {filled.length > 0 && <p>{bathInWords(bath)}</p>}
      {mix.map((one) => (
        <ToMix key={`${one.batch.item.id} ${one.batch.latest}`} one={one} />
      ))}
      {filled.length > 0 && mix.length === 0 && <p>Nothing has to be mixed for it by the book.</p>}
    </section>
  );
}

function fromInWords({ from, notYet, item }: Filled): string {
  const bottles = from.map(({ label, quantity }) => `${label}: ${formatQuantity(quantity, item.unit)}`);
  const short = notYet > 0n ? [`not in a bottle yet: ${formatQuantity(notYet, item.unit)}`] : [];
  return [...bottles, ...short].join('; ') || 'nothing is set aside';
}

function bathInWords(bath: SessionSheet['bath']): string {
  if (!bath?.bath) return 'No silver bath is planned for this day; say which one takes it.';
  const { topUp } = bath;
  const full = `Silver bath: ${bath.bath.name}, ${formatQuantity(bath.bath.volume, 'uL')} when full.`;
  if (!topUp) return full;
  const crystals = formatQuantity(topUp.crystals, 'mg');
  return `${full} Top it up by ${dayInWords(topUp.by)}: ${crystals} of silver nitrate, ${formatQuantity(topUp.volume, 'uL')} of water.`;
}

function ToMix({ one: { batch, card } }: { one: ToMixOnSheet }) {
  const days = batch.earliest.equals(batch.latest)
    ? `on ${dayInWords(batch.latest)}`
    : `from ${dayInWords(batch.earliest)} to ${dayInWords(batch.latest)}`;
  return (
    <section class="together">
      <h3>
        Mix {batch.item.name}: {amount(batch.quantity)}, {days}
      </h3>
      {card ? <MixCard card={card} /> : <p>Its formula is not kept here.</p>}
    </section>
  );
}

function MixCard({ card }: { card: Mixed }) {
  const { method } = card.text;
  return (
    <>
      <Table {...cardTable(card)} />
      {method.length > 0 && (
        <ol>
          {method.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
    </>
  );
}
