// What is written by hand at the bench: one row for each attempt, with blank columns. Only on paper.
import type { SittingView } from '../sittings/sittings.schemas.js';

/** After the third attempt at a plate one stops: common practice, no source. */
const ROWS_A_PLATE = 3;
const COLUMNS = ['Plate no.', 'Bottle', 'Bath', 'Seconds', 'Sky', 'Result'];

/** Rows to write in for the plates of one sitting. */
export function BenchRows({ view }: { view: SittingView }) {
  const rows = view.plates.flatMap((plate) =>
    Array.from({ length: ROWS_A_PLATE }, (_, index) => ({
      key: `${plate.id}-${index}`,
      size: index === 0 ? plate.sizeName : '',
    })),
  );
  return (
    <div class="print-only">
      <table class="bench">
        <caption>To write in for {view.contact.name}</caption>
        <thead>
          <tr>
            <th scope="col">Plate</th>
            {COLUMNS.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, size }) => (
            <tr key={key}>
              <td>{size}</td>
              {COLUMNS.map((name) => (
                <td key={name} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
