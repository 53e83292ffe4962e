// What stands on the bench for a day and for each sitting of it: bath, bottles, helper, and the plan for a dull sky.
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Tag } from '../platform/html/kit/notices.js';
import { NO_BATH_WORDS } from '../stock/due.calc.js';
import type { DaySheet, OnSheet, Poured } from './day-sheets.service.js';
import { dullInWords, holdStillInWords } from './day-words.calc.js';

/** What holds for the whole day. */
export function OnTheBench({ visit, sheet }: { visit: StaffVisit; sheet: DaySheet }) {
  const { bath, poured, helper, sittings, faults } = sheet;
  const shelf = `/s/${visit.studio.slug}/desk/shelf`;
  const wanted = sittings.some((one) => one.asksForHelper);
  return (
    <>
      {wanted && (
        <p>
          {helper ? (
            'A helper is there.'
          ) : (
            <>
              <Tag tone="warn">no helper yet</Tag> Somebody on this day wants four hands.
            </>
          )}
        </p>
      )}
      {bath && <TheBath bath={bath} shelf={shelf} />}
      {poured.length > 0 && <p>For test plates and the day itself: {pouredInWords(poured)}.</p>}
      {sheet.date.equals(sheet.today) && (
        <p class="alone no-print">
          <a href={`${shelf}/baths/off`}>The chemistry is off</a>
        </p>
      )}
      {faults.map((fault) => (
        <p key={fault.id}>
          <strong>The chemistry was off</strong>, written down at{' '}
          {timeInWords(instantToWall(sheet.zone, fault.at))} by {fault.who}:{' '}
          <a href={`${shelf}/baths/off/${fault.id}`}>
            {fault.seen}
            {fault.name !== '' && `, ${fault.name}`}
          </a>
          .
        </p>
      ))}
    </>
  );
}

function TheBath({ bath, shelf }: { bath: NonNullable<DaySheet['bath']>; shelf: string }) {
  if (!bath.bath)
    return bath.reason === 'no bath' || bath.reason === null ? null : (
      <p>
        <Tag tone="bad">no bath</Tag> The day is not ready: {NO_BATH_WORDS[bath.reason]}.{' '}
        <a href={`${shelf}/baths`}>Baths</a>
      </p>
    );
  return (
    <p>
      Its plates go through <a href={`${shelf}/baths/${bath.bath.id}`}>{bath.bath.name}</a>
      {bath.topUp && `, topped up by ${dayInWords(bath.topUp.by)}`}.
    </p>
  );
}

/** What holds for one sitting. */
export function ForOne({ sheet, one }: { sheet: DaySheet; one: OnSheet }) {
  const { holdStill, canHold, dull, poured } = one;
  return (
    <>
      {holdStill && <p>{holdStillInWords(holdStill)}</p>}
      <p>
        {canHold.map(({ name, seconds }) => `${name} can hold still for about ${seconds}\u00a0s`).join('; ')}.
      </p>
      {dull && <p>{dullInWords(dull)}</p>}
      {one.asksForHelper && (
        <p>{sheet.helper ? 'A helper is there for it.' : <Tag tone="warn">no helper yet</Tag>}</p>
      )}
      {poured.length > 0 && <p>From the shelf: {pouredInWords(poured)}.</p>}
    </>
  );
}

const pouredInWords = (poured: Poured[]) =>
  poured
    .map(
      ({ item, bottles }) =>
        `${item} from ${bottles.map((one) => one ?? 'a batch still to come').join(' and ')}`,
    )
    .join('; ');
