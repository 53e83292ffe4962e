// What students find on their page after the day: their plates, the formulas as printed cards, and how to go on safely.
// What it says of safety is common practice, no source; the supplier's sheet and local codes go before it.
import { Card } from '../platform/html/kit/facts.js';
import { useWords } from '../platform/html/kit/spoken.js';
import { Table } from '../platform/html/kit/table.js';
import type { Mixed } from '../stock/formulas.schemas.js';
import { cardTable } from '../stock/mix-card.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Words } from '../words/words-for.js';
import type { MadePlates } from './after.schemas.js';
import type { OwnAfter } from './after-views.service.js';

/** "3 kept of 5 plates made, Half plate". */
const plateInWords = (
  sizes: readonly PlateSize[],
  { plateSizeId, tries, keepers }: MadePlates,
  { student }: Words,
): string => student.after.kept(keepers, tries, sizes.find(({ id }) => id === plateSizeId)?.name);

export function AfterTheDay({ after, sizes }: { after: OwnAfter; sizes: readonly PlateSize[] }) {
  const { own, group, cards, cyanide } = after;
  const words = useWords();
  const { after: said } = words.student;
  const inWords = (plates: readonly MadePlates[]) =>
    plates.map((one) => plateInWords(sizes, one, words)).join('; ');
  const alone = own.filter(({ plates }) => plates.some(({ tries }) => tries > 0));
  const together = group.filter(({ tries }) => tries > 0);
  return (
    <>
      <Card title={said.plates}>
        {alone.length + together.length === 0 && <p>{said.none}</p>}
        <ul>
          {alone.map(({ student, plates }) => (
            <li key={student.id}>{said.own(student.name, inWords(plates))}</li>
          ))}
          {together.length > 0 && <li>{said.group(inWords(together))}</li>}
        </ul>
      </Card>
      {cards.length > 0 && (
        <Card title={said.poured}>
          <p>{said.asMixed}</p>
          {cards.map((card) => (
            <section key={card.item.id}>
              <h3>{card.item.name}</h3>
              <MixCard card={card} />
            </section>
          ))}
        </Card>
      )}
      <Card title={said.safely}>
        <ul>
          {[...said.advice, cyanide ? said.hypo.afterCyanide : said.hypo.plain, ...said.law].map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
        <NeverMeet apart={after.apart} />
        <p>
          <strong>{words.meeting.advice}</strong>
        </p>
      </Card>
    </>
  );
}

function NeverMeet({ apart }: Pick<OwnAfter, 'apart'>) {
  const { meeting, student } = useWords();
  if (apart.length === 0) return null;
  return (
    <>
      <h3>{student.after.apart}</h3>
      <ul>
        {apart.map(({ rule, ones, others }) => (
          <li key={rule.told}>
            <strong>{student.after.meet(ones.join(', '), others.join(', '))}</strong>{' '}
            {meeting.rules[rule.told].effect} <span class="small">({meeting.rules[rule.told].source})</span>
          </li>
        ))}
      </ul>
    </>
  );
}

function MixCard({ card }: { card: Mixed }) {
  const { method } = card.text;
  return (
    <>
      <Table {...cardTable(card, useWords())} />
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
