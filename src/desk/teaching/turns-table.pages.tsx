// One student's turns as a table of times and plain words, for pages and for paper. It plans nothing; the picture of
// all students stands in rota-chart.pages.tsx.
import { Table } from '../../platform/html/kit/table.js';
import type { Line } from '../../teaching/rota-timetable.calc.js';
import { type NameOf, timetableRows } from '../../teaching/rota-words.calc.js';

interface TurnsTableProps {
  /** Whose turns they are; the table is named by it. */
  name: string;
  /** In their order, as `timetableOf` gives them. */
  lines: readonly Line[];
  /** Names of the other students by their ids. */
  nameOf: NameOf;
}

/** A sentence instead of a table for who has no turns. */
export function TurnsTable({ name, lines, nameOf }: TurnsTableProps) {
  return (
    <Table
      caption={`The turns of ${name}`}
      columns={[{ head: 'When' }, { head: 'What' }]}
      rows={timetableRows(lines, nameOf)}
      empty={`${name} has no turns on this day.`}
      steady
    />
  );
}
