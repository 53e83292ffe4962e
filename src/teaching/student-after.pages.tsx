// What students find on their page after the day: their plates, the formulas as printed cards, and how to go on safely.
// What it says of safety is common practice, no source; the supplier's sheet and local codes go before it.
import { STANDING_ADVICE } from '../chemistry/hazards.calc.js';
import { counted } from '../lib/words.js';
import { Card } from '../platform/html/kit/facts.js';
import { Table } from '../platform/html/kit/table.js';
import type { Mixed } from '../stock/formulas.schemas.js';
import { cardTable } from '../stock/mix-card.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { MadePlates } from './after.schemas.js';
import type { OwnAfter } from './after-views.service.js';

/** "3 kept of 5, Half plate". */
const plateInWords = (sizes: readonly PlateSize[], { plateSizeId, tries, keepers }: MadePlates): string =>
  `${keepers} kept of ${counted(tries, 'plate')} made, ${sizes.find(({ id }) => id === plateSizeId)?.name ?? 'another size'}`;

export function AfterTheDay({ after, sizes }: { after: OwnAfter; sizes: readonly PlateSize[] }) {
  const { own, group, cards, cyanide, apart } = after;
  const alone = own.filter(({ plates }) => plates.some(({ tries }) => tries > 0));
  const together = group.filter(({ tries }) => tries > 0);
  return (
    <>
      <Card title="Your plates">
        {alone.length + together.length === 0 && <p>The studio wrote no plates down.</p>}
        <ul>
          {alone.map(({ student, plates }) => (
            <li key={student.id}>
              {student.name}: {plates.map((one) => plateInWords(sizes, one)).join('; ')}
            </li>
          ))}
          {together.length > 0 && (
            <li>Of the whole group: {together.map((one) => plateInWords(sizes, one)).join('; ')}</li>
          )}
        </ul>
      </Card>
      {cards.length > 0 && (
        <Card title="What was poured, and how it was mixed">
          <p>As the studio mixed it on your day. Read how to go on safely before you mix anything.</p>
          {cards.map((card) => (
            <section key={card.item.id}>
              <h3>{card.item.name}</h3>
              <MixCard card={card} />
            </section>
          ))}
        </Card>
      )}
      <Card title="How to go on safely">
        <ul>
          <li>
            Get the supplier’s current safety data sheet with each bottle, and read it before you open the
            bottle. It goes before whatever stands here.
          </li>
          <li>
            Goggles and gloves, every time. No contact lenses, cuts covered, no food, no children in the room.
          </li>
          <li>Ether and collodion: fresh air, small bottles, and no flame, heater or spark in the room.</li>
          <li>
            Fix in hypo.{' '}
            {cyanide
              ? 'The cyanide fixer of your day was in the teacher’s hands only; its formula is not given out.'
              : 'Cyanide fixers are not for somebody who works alone.'}
          </li>
          <li>
            Ask your local authority what you may keep, in what amount and where, and where silver, acid and
            solvent waste goes. None of it goes down the drain.
          </li>
          <li>Where the law wants a licence or a trained person, work with one.</li>
        </ul>
        {apart.length > 0 && (
          <>
            <h3>Never let these meet</h3>
            <ul>
              {apart.map(({ rule, ones, others }) => (
                <li key={`${rule.one} ${rule.other}`}>
                  <strong>
                    {ones.join(', ')} with {others.join(', ')}:
                  </strong>{' '}
                  {rule.effect} <span class="small">({rule.source})</span>
                </li>
              ))}
            </ul>
          </>
        )}
        <p>
          <strong>{STANDING_ADVICE}</strong>
        </p>
      </Card>
    </>
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
