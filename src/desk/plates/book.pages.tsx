// All plates, the newest first, a page at a time, looked for by number, name, day, series and whether they are kept.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import { Table } from '../../platform/html/kit/table.js';
import type { BookPlate, BookQuery, SeenPlate } from '../../plates/book.schemas.js';
import type { BookPage as Found } from '../../plates/book.service.js';
import type { Series } from '../../plates/series.schemas.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface BookProps {
  visit: StaffVisit;
  book: Found;
  series: Series[];
  query: BookQuery;
}

const COLUMNS = [
  { head: 'Plate', figures: true },
  { head: 'Day' },
  { head: 'Who' },
  { head: 'Size' },
  { head: 'Series' },
  { head: 'Result' },
];

export function BookPage({ visit, book, series, query }: BookProps) {
  return (
    <PlatesFrame visit={visit} title="All plates" at="/plates">
      <FindForm visit={visit} book={book} series={series} query={query} />
      <p>
        {book.found === 0
          ? 'No plate is found.'
          : book.found === 1
            ? 'One plate.'
            : `${book.found} plates, the newest first.`}
        {book.last > 1 && ` Page ${query.page} of ${book.last}.`}
      </p>
      {book.plates.length > 0 && (
        <Table
          caption="Plates"
          columns={COLUMNS}
          rows={book.plates.map((one) => [
            <a key="number" href={deskPath(visit, `/plates/${one.plate.number}`)}>
              {one.plate.number}
            </a>,
            dayInWords(one.plate.day),
            whoOn(one),
            one.plate.size,
            seriesPlace(one.plate),
            <KeptTag key="kept" plate={one.plate} />,
          ])}
        />
      )}
      <Pages visit={visit} last={book.last} query={query} />
    </PlatesFrame>
  );
}

function FindForm({ visit, book, series, query }: BookProps) {
  const values = {
    find: query.find,
    day: query.day?.toString() ?? '',
    series: query.series ?? '',
    keeper: query.keeper ?? '',
  };
  return (
    <Form action={deskPath(visit, '/plates')} method="get" label="Find plates" values={values}>
      <TextField name="find" label="Number or name" type="search" optional />
      <SelectField
        name="day"
        label="Day"
        options={book.days.map((day) => ({ value: day.toString(), label: dayInWords(day) }))}
        empty="Any day"
      />
      {series.length > 0 && (
        <SelectField
          name="series"
          label="Series"
          options={series.map((one) => ({ value: one.series_id, label: one.name }))}
          empty="Any, or none"
        />
      )}
      <SelectField
        name="keeper"
        label="Kept"
        options={[
          { value: 'yes', label: 'Kept' },
          { value: 'no', label: 'Not kept' },
        ]}
        empty="All"
      />
      <Button>Find plates</Button>
    </Form>
  );
}

function Pages({ visit, last, query }: Pick<BookProps, 'visit' | 'query'> & { last: number }) {
  if (last === 1) return null;
  const { find, day, series, keeper, page } = query;
  const to = (number: number) =>
    `${deskPath(visit, '/plates')}?${new URLSearchParams({
      find,
      day: day?.toString() ?? '',
      series: series ?? '',
      keeper: keeper ?? '',
      page: String(number),
    })}`;
  return (
    <nav class="actions" aria-label="Pages of plates">
      {page > 1 && <a href={to(Math.min(page - 1, last))}>Newer plates</a>}
      {page < last && <a href={to(page + 1)}>Older plates</a>}
    </nav>
  );
}

/** As typed, otherwise everybody who sat: these pages are the studio's own. */
export const whoOn = ({ plate, on }: SeenPlate): string =>
  plate.names || on.map((one) => one.name).join(', ') || (plate.sittingId ? 'not known' : 'nobody sat');

export const seriesPlace = ({ series }: BookPlate): string =>
  series === null ? 'none' : `${series.name}, no. ${series.number}`;

export function KeptTag({ plate }: { plate: BookPlate }) {
  const result = plate.result === '' ? '' : ` ${plate.result}`;
  if (plate.struckAt) return <Tag tone="warn">typed in by mistake</Tag>;
  return (
    <>
      {plate.keeper ? <Tag tone="good">kept</Tag> : <Tag>not kept</Tag>}
      {result}
    </>
  );
}
