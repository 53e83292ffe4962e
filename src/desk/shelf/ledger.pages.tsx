// What happened to a bottle: its ledger with the level after each line, for whom it is set aside, and where it came
// from and went.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { Table } from '../../platform/html/kit/table.js';
import type { BottleView } from '../../stock/shelf-views.service.js';
import { momentInWords, shortDay } from '../words.calc.js';
import { shelfPath } from './frame.pages.js';
import { changeInWords, movedInWords } from './words.calc.js';

export function HeldFor({ visit, view }: { visit: StaffVisit; view: BottleView }) {
  const { heldFor, item } = view;
  if (heldFor.length === 0) return null;
  return (
    <Table
      caption="Set aside of it for"
      columns={[{ head: 'Day' }, { head: 'How much', figures: true }]}
      rows={heldFor.map((one) => [
        <a key="day" href={`/s/${visit.studio.slug}/desk/days/${one.neededOn}`}>
          {shortDay(one.neededOn)}
        </a>,
        formatQuantity(one.quantity, item.unit),
      ])}
    />
  );
}

const SETTING_ASIDE = ['reserved', 'released'];

export function Ledger({ visit, view }: { visit: StaffVisit; view: BottleView }) {
  const { ledger, item } = view;
  const aside = ledger.filter((line) => SETTING_ASIDE.includes(line.kind));
  const when = (at: BottleView['ledger'][number]['at']) => momentInWords(visit.studio.zone, at);
  return (
    <>
      <Table
        caption="What moved"
        columns={[
          { head: 'When' },
          { head: 'What' },
          { head: 'How much', figures: true },
          { head: 'In it after', figures: true },
          { head: 'Who and why' },
        ]}
        rows={ledger
          .filter((line) => !SETTING_ASIDE.includes(line.kind))
          .map((line) => [
            when(line.at),
            movedInWords(line.kind),
            changeInWords(line.quantity, item.unit),
            formatQuantity(line.level, item.unit, 'exact'),
            [line.who, line.reason].filter((word) => word !== '').join(': '),
          ])}
      />
      {aside.length > 0 && (
        <details>
          <summary>What was set aside of it and given back</summary>
          <Table
            caption="Set aside"
            columns={[{ head: 'When' }, { head: 'What' }, { head: 'How much', figures: true }]}
            rows={aside.map((line) => [
              when(line.at),
              movedInWords(line.kind),
              formatQuantity(line.quantity, item.unit),
            ])}
          />
        </details>
      )}
    </>
  );
}

export function Family({ visit, view }: { visit: StaffVisit; view: BottleView }) {
  const { family, lot } = view;
  if (family.length === 0) return null;
  const from = family.filter((one) => one.lotId === lot.id);
  const into = family.filter((one) => one.parentLotId === lot.id);
  const line = (id: string, label: string, quantity: string) => (
    <li key={id} class="alone">
      <a href={shelfPath(visit, `/bottles/${id}`)}>{label}</a>, {quantity}
    </li>
  );
  return (
    <>
      <h2>Where it came from and went</h2>
      {from.length > 0 && (
        <>
          <p>In it is some of:</p>
          <ul>
            {from.map((one) =>
              line(one.parentLotId, one.parentLabel, formatQuantity(one.quantity, one.unit)),
            )}
          </ul>
        </>
      )}
      {into.length > 0 && (
        <>
          <p>Some of it went into:</p>
          <ul>{into.map((one) => line(one.lotId, one.label, formatQuantity(one.quantity, one.unit)))}</ul>
        </>
      )}
    </>
  );
}
