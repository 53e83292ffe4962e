// A table that becomes a list on a narrow screen and stays a ruled table on paper.
import type { ComponentChildren } from 'preact';

export interface Column {
  head: string;
  /** Numbers: set flush right with figures of one width. */
  figures?: boolean | undefined;
  /** Left empty on paper, to be written into by hand. */
  blank?: boolean | undefined;
}

interface TableProps {
  caption: string;
  columns: Column[];
  /** One cell per column; the first names its row. */
  rows: ComponentChildren[][];
  /** Said instead when there are no rows. */
  empty?: string | undefined;
  /** Short figures throughout: stays a table on a narrow screen. */
  steady?: boolean | undefined;
}

/**
 * On a narrow screen each row becomes a small list of "head: cell". Since the style sheet then changes how
 * rows are displayed, the roles are written out: some browsers forget what a table is when it is a block.
 */
export function Table({ caption, columns, rows, empty = 'Nothing here yet.', steady = false }: TableProps) {
  if (rows.length === 0) return <p class="empty">{empty}</p>;
  const kind = (column: Column | undefined) =>
    column?.figures === true ? 'figures' : column?.blank === true ? 'blank' : undefined;
  return (
    <table class={steady ? 'steady' : undefined} {...role('table')}>
      <caption>{caption}</caption>
      <thead {...role('rowgroup')}>
        <tr {...role('row')}>
          {columns.map((column) => (
            <th key={column.head} scope="col" class={kind(column)} {...role('columnheader')}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody {...role('rowgroup')}>
        {rows.map((cells, line) => (
          <tr key={`row ${line + 1}`} {...role('row')}>
            {cells.map((cell, at) =>
              at === 0 ? (
                <th key={columns[at]?.head} scope="row" class={kind(columns[at])} {...role('rowheader')}>
                  {cell}
                </th>
              ) : (
                <td
                  key={columns[at]?.head}
                  class={kind(columns[at])}
                  data-head={columns[at]?.head}
                  {...role('cell')}
                >
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const role = <R extends string>(name: R) => ({ role: name });
