// What a teaching day takes of the shelf and how the shelf stands with it, on the owner's page of the day.
import type { Needs, Spread } from '../../chemistry/estimate.calc.js';
import { SOLUTION_KINDS } from '../../chemistry/use-per-area.calc.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { Card } from '../../platform/html/kit/facts.js';
import { StockMark } from '../../platform/html/kit/stock-mark.js';
import { Table } from '../../platform/html/kit/table.js';
import type { Outlook } from '../../stock/outlook.calc.js';
import type { PlateSize } from '../../stock/stock.schemas.js';
import type { DayOnShelf } from '../../teaching/day-shelf.service.js';
import type { Session } from '../../teaching/teaching.schemas.js';
import { reasonInWords } from '../outlook-words.calc.js';

const COLUMNS = [
  { head: 'What' },
  { head: 'Low', figures: true },
  { head: 'Likely', figures: true },
  { head: '90 %', figures: true },
  { head: 'High', figures: true },
];

interface OnTheShelfProps {
  shelf: DayOnShelf;
  sizes: PlateSize[];
  session: Session;
  left: number;
}

/** "4 Goggles, 8 Gloves" for so many. */
const gearFor = ({ course }: Session, students: number): string =>
  course.gear.map(({ name, each }) => `${each * students} ${name}`).join(', ');

export function OnTheShelf(props: OnTheShelfProps) {
  const { shelf, sizes, session, left } = props;
  if (session.state === 'run') return <WhatItTook {...props} />;
  return (
    <Card title="What it takes of the shelf">
      <Stand words="For who has a place" outlook={shelf.outlookNow} />
      {left > 0 && <Stand words="With every place taken" outlook={shelf.outlookFull} />}
      <Amounts caption="For who has a place, your own plates included" needs={shelf.now} sizes={sizes} />
      {left > 0 && <Amounts caption="With every place taken" needs={shelf.full} sizes={sizes} />}
      {session.course.gear.length > 0 && (
        <p>
          To be given out: {gearFor(session, session.taken)}
          {left > 0 && `; with every place taken ${gearFor(session, session.places)}`}.
        </p>
      )}
      {shelf.mixed.length > 0 && (
        <Table
          caption={`What goes into ${shelf.mixed.join(', ')}, with every place taken`}
          columns={COLUMNS}
          rows={shelf.chemicals.map(({ ingredient, unit, quantity }) =>
            row(ingredient, quantity, (amount) => formatQuantity(amount, unit, 'up')),
          )}
        />
      )}
      <ForEach shelf={shelf} sizes={sizes} beginner />
      <HowReckoned />
    </Card>
  );
}

/** Of a day that was held: what was written down, beside what was reckoned for who was there. */
function WhatItTook({ shelf, sizes, session }: OnTheShelfProps) {
  const { took, perStudent } = shelf;
  const who = took ? 'who was there' : 'who had a place';
  return (
    <Card title="What it took of the shelf">
      {took === null ? (
        <p>What it took is not written down yet. What was set aside for it stays set aside until then.</p>
      ) : (
        <Table
          caption="Taken off the shelf, as it was written down"
          columns={[{ head: 'What' }, { head: 'How much', figures: true }]}
          rows={took.map(({ name, unit, quantity }) => [name, formatQuantity(quantity, unit)])}
          empty="Nothing was taken off the shelf by it."
        />
      )}
      <Amounts caption={`Reckoned for ${who}, your own plates included`} needs={shelf.now} sizes={sizes} />
      {session.course.gear.length > 0 && <p>Given out: {gearFor(session, perStudent.length)}.</p>}
      <ForEach shelf={shelf} sizes={sizes} />
      <HowReckoned />
    </Card>
  );
}

interface ForEachProps extends Pick<OnTheShelfProps, 'shelf' | 'sizes'> {
  /** Also somebody who may yet come. */
  beginner?: boolean;
}

function ForEach({ shelf, sizes, beginner = false }: ForEachProps) {
  return (
    <details>
      <summary>For each student</summary>
      {shelf.perStudent.map(({ student, estimate }) => (
        <Amounts key={student.id} caption={student.name} needs={estimate} sizes={sizes} />
      ))}
      {beginner && (
        <Amounts caption="Somebody who never poured a plate" needs={shelf.beginner} sizes={sizes} />
      )}
      <Amounts caption="Your own plates, to show how" needs={shelf.demonstration} sizes={sizes} />
    </details>
  );
}

function HowReckoned() {
  return (
    <details>
      <summary>How was this reckoned?</summary>
      <ul>
        <li>
          Each student is reckoned alone, and the day is their sum: its 90 % is therefore on the safe side.
        </li>
        <li>
          Who never poured a plate keeps the share of beginners; who makes plates of their own, that of your
          sittings; in between, halfway. Assumption: nothing was found published.
        </li>
        <li>Silver is for buying crystals; it is not set aside.</li>
        <li>
          Follow the supplier’s current safety data sheet, local codes, and a licensed professional where law
          asks for one.
        </li>
      </ul>
    </details>
  );
}

function Stand({ words, outlook }: { words: string; outlook: Outlook }) {
  return (
    <>
      <p>
        {words}: <StockMark state={outlook.state} by={outlook.by} />
      </p>
      {outlook.reasons.length > 0 && (
        <ul>
          {outlook.reasons.map((one) => (
            <li key={`${one.item} ${one.into ?? ''}`}>{reasonInWords(one)}</li>
          ))}
        </ul>
      )}
    </>
  );
}

const row = (name: string, spread: Spread, words: (amount: bigint) => string) => [
  name,
  ...[spread.low, spread.likely, spread.ninety, spread.high].map(words),
];

function Amounts({ caption, needs, sizes }: { caption: string; needs: Needs; sizes: PlateSize[] }) {
  const size = (id: string | undefined) => sizes.find((one) => one.id === id)?.name ?? '';
  return (
    <Table
      caption={caption}
      columns={COLUMNS}
      rows={[
        ...needs.glass.map(({ sizeId, sheets }) => row(`Sheets, ${size(sizeId)}`, sheets, String)),
        ...SOLUTION_KINDS.map((kind) =>
          row(kind, needs.solutions[kind], (amount) => formatQuantity(amount, 'uL', 'up')),
        ),
        row('Silver nitrate', needs.silverNitrate.total, (amount) => formatQuantity(amount, 'mg', 'up')),
      ]}
    />
  );
}
