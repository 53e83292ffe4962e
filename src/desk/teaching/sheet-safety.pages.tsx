// The safety briefing on the sheet of a teaching day: the wording all agreed to, what exactly the substances of the day
// may do, what must be kept apart, where waste goes. Nothing of it is first aid.
import { CHECK_THE_SHEET, hazardsOf, STANDING_ADVICE } from '../../chemistry/hazards.calc.js';
import { NEVER_TOGETHER, WASTES } from '../../chemistry/incompatible.calc.js';
import type { Property } from '../../chemistry/substances.calc.js';
import type { SessionSheet } from '../../teaching/sheets.service.js';
import { Apart, Hazards } from '../shelf/cautions.pages.js';

/** Water brings nothing that a sheet would tell. */
const HARMLESS = ['distilled water', 'water'];

export function SafetyOfDay({ sheet }: { sheet: SessionSheet }) {
  const { view, substances, pairs, cyanide } = sheet;
  const brings = new Set<Property>(sheet.bench.flatMap(({ has }) => has));
  const burns = view.session.course.parts.some(({ work }) =>
    work.some((one) => one !== 'mixing' && one !== 'ether'),
  );
  const [vapour] = NEVER_TOGETHER;
  return (
    <section>
      <h2>How we work safely</h2>
      <ul>
        {view.safety.wording
          .split('\n')
          .filter((line) => line.trim() !== '')
          .map((line) => (
            <li key={line}>{line}</li>
          ))}
        {!burns && brings.has('flammable vapour') && (
          <li>
            <strong>No flame and no heater anywhere today.</strong>
          </li>
        )}
        {vapour && brings.has('flammable vapour') && (
          <li>
            Never in the same room and hour: {vapour.work}, and {vapour.with}.
          </li>
        )}
      </ul>
      {cyanide && <WithCyanide />}
      {substances.length > 0 && (
        <Hazards ingredients={substances.filter(({ substance }) => !HARMLESS.includes(substance ?? ''))} />
      )}
      <Unknown sheet={sheet} />
      <Apart pairs={pairs} title="Keep apart" />
      {brings.size > 0 && (
        <>
          <h2>Waste</h2>
          <p>
            Each in its own labelled bottle and nothing down the drain. From memory; your local rules decide.
          </p>
          <ul>
            {wasteOf(brings).map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
      <p>
        <strong>{STANDING_ADVICE}</strong>
      </p>
    </section>
  );
}

/** What of the wastes a day can have. */
const wasteOf = (brings: ReadonlySet<Property>): string[] =>
  WASTES.filter(
    (one) =>
      (brings.has('cyanide') || !one.startsWith('cyanide')) &&
      (brings.has('cadmium') || !one.startsWith('cadmium')),
  );

function WithCyanide() {
  return (
    <section class="together">
      <h2>Cyanide is on the bench</h2>
      <ul>
        <li>The teacher’s hands only. The second trained adult is in the room; nobody is alone.</li>
        <li>Nobody under 18 is in the room.</li>
        <li>
          No acid, no developer and no open silver bath beside it, and no plate that is not rinsed of
          developer.
        </li>
        <li>Its waste stands alone. Nobody treats it here.</li>
      </ul>
    </section>
  );
}

/** What nothing is known of is named, so that nobody takes silence for safety. */
function Unknown({ sheet: { substances } }: { sheet: SessionSheet }) {
  const names = substances
    .filter(
      ({ substance, item }) =>
        !HARMLESS.includes(substance ?? '') &&
        hazardsOf(substance).length === 0 &&
        (item?.hCodes.length ?? 0) === 0 &&
        (item?.hazardNote ?? '') === '',
    )
    .map(({ name }) => name);
  if (names.length === 0) return null;
  return (
    <p>
      Nothing is known here of {names.join(', ')}: {CHECK_THE_SHEET}.
    </p>
  );
}
