// The lines of a draft as they would come in.
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Table } from '../../platform/html/kit/table.js';
import type { DiaryLine } from '../../sittings/diary.schemas.js';
import type { BroughtPlate } from '../../plates/brought.schemas.js';
import type { BroughtBottle } from '../../stock/brought.schemas.js';
import type { Checked } from './bring-in.service.js';
import type { What } from './columns.calc.js';

/** So many stand open; the others are folded away. */
const SHOWN = 12;

type Lines = Checked['lines'];

export function ComesIn({ what, lines }: { what: What; lines: Lines }) {
  const good = lines.filter(({ problems }) => problems.length === 0);
  const rest = good.slice(SHOWN);
  return (
    <>
      <Rows what={what} lines={good.slice(0, SHOWN)} caption="As they would come in" />
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} more</summary>
          <Rows what={what} lines={rest} caption="The others" />
        </details>
      )}
    </>
  );
}

const HEADS: Record<What, string[]> = {
  diary: ['Line', 'Name', 'Reached by', 'Asked on', 'Place', 'Sit', 'Plates', 'Note'],
  shelf: ['Line', 'What it is', 'Bottle or batch', 'How much', 'Opened on', 'Usable until', 'Note'],
  plates: ['Line', 'Number', 'Day', 'Who is on it', 'Kept', 'Seconds', 'How it came out', 'Note'],
};

function Rows({ what, lines, caption }: { what: What; lines: Lines; caption: string }) {
  return (
    <Table
      caption={caption}
      columns={HEADS[what].map((head) => ({ head }))}
      empty="Nothing yet."
      rows={lines.map((one) => [String(one.line), ...cellsOf(what, one)])}
    />
  );
}

function cellsOf(what: What, { value, tells }: Lines[number]): string[] {
  if (what === 'diary') return diaryCells(value as DiaryLine, tells);
  return what === 'shelf' ? shelfCells(value as BroughtBottle) : plateCells(value as BroughtPlate);
}

const diaryCells = (line: DiaryLine, tells: string | undefined): string[] => [
  line.name,
  line.email || line.telephone || line.postalAddress,
  dayInWords(line.askedOn),
  tells ?? 'waiting list',
  String(line.sitters),
  String(line.plates),
  line.note,
];

const shelfCells = ({ item, label, quantity, openedOn, usableUntil, note }: BroughtBottle): string[] => [
  item.name,
  label === '' ? 'called by today’s date' : label,
  formatQuantity(quantity, item.unit, 'exact'),
  openedOn ? dayInWords(openedOn) : '',
  usableUntil ? dayInWords(usableUntil) : 'as it keeps, from today',
  note,
];

const plateCells = (plate: BroughtPlate): string[] => [
  String(plate.number),
  dayInWords(plate.day),
  plate.names,
  plate.keeper ? 'yes' : 'no',
  plate.seconds === null ? '' : String(plate.seconds),
  plate.result,
  plate.note,
];
