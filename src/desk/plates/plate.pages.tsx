// One plate: all that is known of it, what stands on its back, and the form that corrects it.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../../lib/words.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card, type Fact, Facts } from '../../platform/html/kit/facts.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Notice as Said } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { OnPlate, Said as Consent } from '../../plates/book.schemas.js';
import type { WholePlate } from '../../plates/book.service.js';
import type { Handed } from '../../plates/hand-over.schemas.js';
import type { Notice } from '../frame.pages.js';
import { KeptTag, seriesPlace } from './book.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface PlateProps {
  visit: StaffVisit;
  whole: WholePlate;
  lists: Handed[];
  notice?: Notice | undefined;
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function PlatePage(props: PlateProps) {
  const { visit, whole, notice, sent } = props;
  const { plate, record, history } = whole;
  const left = whole.on.filter((one) => one.record.state !== 'agreed');
  return (
    <PlatesFrame
      visit={visit}
      title={`Plate ${plate.number}`}
      at="/plates"
      notice={notice}
      errors={sent?.errors}
    >
      {plate.struckAt && (
        <Said tone="warn">
          This plate was typed in by mistake and counts for nothing. Its number is not given again.
        </Said>
      )}
      <Facts items={factsOf(props)} />
      <Card title="What stands on the back">
        {record.length === 0 ? (
          <p>Nothing of what you want there is known of this plate.</p>
        ) : (
          <Facts items={record.map((line) => ({ term: line.label, detail: line.value }))} />
        )}
        {plate.names === '' && left.length > 0 && (
          <p class="small">
            {left.map((one) => one.name).join(', ')}: not named there, since they have not agreed that the
            name is kept with the plate. Type the names in where they want them.
          </p>
        )}
        {!plate.struckAt && (
          <p class="alone">
            <a href={`${deskPath(visit, '/plates/labels')}?plate=${plate.number}`}>Print its label</a>
          </p>
        )}
      </Card>
      {!plate.struckAt && <CorrectForm {...props} />}
      {history.length > 0 && (
        <details>
          <summary>What was corrected ({history.length})</summary>
          <ul>
            {history.map((line) => (
              <li key={line.at.toString()}>
                {whenInWords(visit, line.at)}, {line.who}: {line.note}
              </li>
            ))}
          </ul>
        </details>
      )}
    </PlatesFrame>
  );
}

const isTyped = ({ what }: WholePlate['fields'][number]) => what === 'typed';

export const answersOf = ({ plate, fields, entries }: Pick<WholePlate, 'plate' | 'fields' | 'entries'>) => ({
  names: plate.names,
  ...Object.fromEntries(fields.filter(isTyped).map(({ id }) => [`field-${id}`, entries.get(id) ?? ''])),
});

function CorrectForm({ visit, whole, sent }: PlateProps) {
  const { plate, fields } = whole;
  return (
    <Card title="Correct what stands there">
      <Form
        action={deskPath(visit, `/plates/${plate.number}/record`)}
        csrf={visit.formToken}
        label={`Correct plate ${plate.number}`}
        values={sent?.values ?? answersOf(whole)}
        shown={answersOf(whole)}
        errors={sent?.errors ?? []}
      >
        <TextField name="names" label="Names, as they want them" optional />
        {fields.filter(isTyped).map((field) => (
          <TextField key={field.id} name={`field-${field.id}`} label={field.label} optional />
        ))}
        <Button>Save this</Button>
      </Form>
    </Card>
  );
}

function factsOf({ visit, whole, lists }: PlateProps): Fact[] {
  const { plate, on, owed } = whole;
  const isOwner = visit.account.role === 'owner';
  const sitting = plate.sittingId;
  const people = on.map((one) => (
    <span key={one.sitterId} class="line">
      {one.name}
      {consentInWords(one, visit)}{' '}
    </span>
  ));
  const open = owed?.finishedAt === null ? owed.steps.filter((one) => one.done === null) : [];
  const shelf = (path: string, words: string) => <a href={deskPath(visit, `/shelf/${path}`)}>{words}</a>;
  return [
    { term: 'Day', detail: dayInWords(plate.day) },
    {
      term: 'Who sat',
      detail: people.length > 0 ? people : sitting ? 'not known' : 'nobody: a test, or for the studio',
    },
    { term: 'Size', detail: plate.size },
    { term: 'Result', detail: <KeptTag plate={plate} /> },
    { term: 'Held open', detail: plate.seconds === null ? 'not written down' : `${plate.seconds}\u00a0s` },
    { term: 'Sky', detail: plate.sky ?? 'not written down' },
    {
      term: 'Bottle',
      detail: plate.bottle ? shelf(`bottles/${plate.bottle.id}`, plate.bottle.label) : 'not written down',
    },
    {
      term: 'Bath',
      detail: plate.bath ? shelf(`baths/${plate.bath.id}`, plate.bath.name) : 'not written down',
    },
    { term: 'Series', detail: seriesPlace(plate) },
    ...(plate.note === '' ? [] : [{ term: 'Note', detail: plate.note }]),
    {
      term: 'For an archive',
      detail:
        lists.length === 0
          ? 'on no list'
          : lists.map((one) => (
              <span key={one.hand_over_id}>
                {isOwner ? (
                  <a href={deskPath(visit, `/plates/hand-over/${one.hand_over_id}`)}>{one.taken_by}</a>
                ) : (
                  one.taken_by
                )}
                {`, the ${one.what}, ${one.given_on ? `given on ${dayInWords(one.given_on)}` : 'not given yet'} `}
              </span>
            )),
    },
    {
      term: 'Still owed',
      detail:
        open.length === 0
          ? 'nothing'
          : `${open.map((one) => one.step.what + (one.late ? ' (late)' : '')).join(', ')}, for its sitting`,
    },
    { term: 'Typed in', detail: `${whenInWords(visit, plate.typedAt)} by ${plate.who}` },
    ...(isOwner && sitting
      ? [
          {
            term: 'Sitting',
            detail: <a href={deskPath(visit, `/requests/${sitting}`)}>the request and its day</a>,
          },
        ]
      : []),
  ];
}

const whenInWords = ({ studio }: StaffVisit, at: WholePlate['plate']['typedAt']) => {
  const wall = instantToWall(studio.zone, at);
  return `${dayInWords(wall)}, ${timeInWords(wall)}`;
};

function consentInWords({ archive }: OnPlate, visit: StaffVisit): string {
  const words = (said: Consent) =>
    said.state === 'agreed'
      ? ' (agrees that it goes to an archive)'
      : said.state === 'asked'
        ? ' (no yes to an archive is known)'
        : ` (took back the yes to an archive: ${whenInWords(visit, said.at)})`;
  return words(archive);
}
