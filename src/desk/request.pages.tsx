// Everything about one request or sitting, and the owner's answer to it.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../accounts/visits.service.js';
import { dayInWords, timeInWords } from '../lib/words.js';
import { Answers } from '../platform/html/kit/answers.js';
import { Button } from '../platform/html/kit/button.js';
import type { FormValues } from '../platform/html/kit/field.js';
import { Card, type Fact, Facts } from '../platform/html/kit/facts.js';
import { Form, TextArea } from '../platform/html/kit/form.js';
import type { FieldProblem } from '../platform/problems.js';
import { asksConsent, type ConsentLine } from '../sittings/consents.calc.js';
import { consentsInWords } from '../sittings/consent-words.calc.js';
import type { Wish } from '../sittings/corrections.schemas.js';
import type { Details, SittingView } from '../sittings/sittings.schemas.js';
import { daysInWords, STATE_WORDS } from '../sittings/words.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { contactJourneyTold } from '../travel/told.calc.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import type { Outlook } from '../stock/outlook.calc.js';
import { LONGEST_MESSAGE } from './desk.schemas.js';
import type { WholeRequest } from './desk.service.js';
import { DeskPage, type Notice } from './frame.pages.js';
import { GivePlace, StockLine, WithoutBath } from './places.pages.js';
import { type SetAsideProps, SetAsideTable } from './shelf/choice.pages.js';
import { OnTheList } from './on-list.pages.js';
import { HoldingStill } from './sitters.pages.js';
import { TheirLink } from './their-link.pages.js';
import { TheirWish } from './their-wish.pages.js';
import { LastActNotice } from './undo.pages.js';
import { waitingPath } from './waiting.pages.js';
import { eventInWords, journeyInShort, kindInWords, momentInWords } from './words.calc.js';

interface RequestPageProps {
  visit: StaffVisit;
  found: WholeRequest;
  /** What its people are asked, and have agreed to. */
  consents?: ConsentLine[];
  /** What they ask to change of the plan. */
  wish?: Wish | null;
  notice?: Notice | undefined;
  /** What was typed, when it has to be looked at again. */
  values?: FormValues;
  errors?: FieldProblem[];
}

export function RequestPage(props: RequestPageProps) {
  const { visit, found, consents = [], wish = null, notice, values = {}, errors = [] } = props;
  const { view, history, choices, setAside, outlook, limit, noBath } = found;
  const { studio, formToken } = visit;
  const path = `/s/${studio.slug}/desk/requests/${view.sitting.id}`;
  const chosen = typeof values.start === 'string' ? values.start : '';
  return (
    <DeskPage visit={visit} title={view.contact.name} at="" notice={notice} errors={errors} distances>
      <p class="lead">{leadOf(view)}</p>
      {view.sitting.details.access !== '' && <AccessCard text={view.sitting.details.access} />}
      {wish && <TheirWish wish={wish} zone={studio.zone} action={`${path}/wish`} formToken={formToken} />}
      <LastActNotice visit={visit} view={view} act={found.lastAct} />
      <Facts items={[...placeFacts(view), ...requestFacts(view), ...reachFacts(view, studio)]} />
      {view.sitting.state === 'confirmed' && (
        <FromTheShelf
          setAside={setAside}
          outlook={outlook}
          noBath={noBath}
          baths={`/s/${studio.slug}/desk/shelf/baths`}
          action={`${path}/bottle`}
          formToken={formToken}
        />
      )}
      <OnTheList visit={visit} found={found} values={values} errors={errors} />
      {choices !== null && (
        <>
          <GivePlace
            zone={studio.zone}
            choices={choices}
            limit={limit}
            action={`${path}/approve`}
            offerAction={waitingPath(visit, `/${view.sitting.id}/offer?from=request`)}
            formToken={formToken}
            chosen={chosen}
            errors={errors}
          />
          <Decline action={`${path}/decline`} formToken={formToken} values={values} errors={errors} />
        </>
      )}
      <HoldingStill
        view={view}
        limit={limit}
        action={`${path}/sitters`}
        formToken={formToken}
        values={values}
        errors={errors}
      />
      {asksConsent(view.sitting.state, consents) && (
        <Answers
          {...consentsInWords(consents, studio.zone, 'desk')}
          action={`${path}/consents`}
          formToken={formToken}
        />
      )}
      <TheirLink url={found.theirPage} action={`${path}/new-link`} formToken={formToken} />
      <p class="alone">
        <a href={`${path}/messages`}>Messages to {view.contact.name}: what went and what is to come</a>
      </p>
      <p class="alone">
        <a href={`/s/${studio.slug}/desk/people/${view.contact.id}`}>
          Data of {view.contact.name}: as a file, or erase
        </a>
      </p>
      <h2>What happened</h2>
      <ol>
        {history.map((line) => (
          <li key={`${line.at} ${line.event}`}>
            {momentInWords(studio.zone, line.at)}: {eventInWords(line, view.contact.name)}
          </li>
        ))}
      </ol>
    </DeskPage>
  );
}

/** What helps them, large: it has to be seen before the day. */
function AccessCard({ text }: { text: string }) {
  return (
    <Card title="What helps them here">
      <div class="lead">
        <Lines text={text} />
      </div>
    </Card>
  );
}

function leadOf({ sitting, place }: SittingView): string {
  if (sitting.state === 'requested') return 'Waiting for your answer.';
  if (sitting.state === 'offered' && place)
    return `Offered: ${dayInWords(place.wallStart)}, ${timeInWords(place.wallStart)}.`;
  if (sitting.state === 'confirmed' && place)
    return `Confirmed for ${dayInWords(place.wallStart)}, ${timeInWords(place.wallStart)}.`;
  return `${STATE_WORDS[sitting.state].charAt(0).toUpperCase()}${STATE_WORDS[sitting.state].slice(1)}.`;
}

function placeFacts({ place }: SittingView): Fact[] {
  if (!place) return [];
  const time = `${timeInWords(place.wallStart)} to ${timeInWords(place.wallEnd)}`;
  return [
    { term: place.holds ? 'Place' : 'Place it had', detail: `${dayInWords(place.wallStart)}, ${time}` },
  ];
}

function requestFacts({ sitting, kind, plates, sitters }: SittingView): Fact[] {
  const told = (term: string, text: string): Fact[] =>
    text === '' ? [] : [{ term, detail: <Lines text={text} /> }];
  return [
    ...(kind ? [{ term: 'Kind of sitting', detail: kindInWords(kind) }] : []),
    { term: sitters.length === 1 ? 'Sitter' : 'Sitters', detail: sitters.map((one) => one.name).join(', ') },
    {
      term: plates.length === 1 ? 'Plate' : 'Plates',
      detail: plates.map((plate) => (
        <div key={plate.id}>
          {plate.sizeName}: {plate.names.join(', ')}
        </div>
      )),
    },
    { term: 'Days that suit', detail: daysInWords(sitting.suits) },
    ...told('Hopes for', sitting.hopes),
    ...guardianFacts(sitting.details),
    ...told('They bring', sitting.details.brings),
    ...told('To know', sitting.anything),
    ...told('Your last word', sitting.message),
  ];
}

/** Whoever is under 18 comes with somebody's yes. */
function guardianFacts({ guardian, minor }: Details): Fact[] {
  if (!guardian)
    return minor ? [{ term: 'Under 18', detail: 'somebody who sits; no parent or guardian is named' }] : [];
  const { name, relation, reach } = guardian;
  const who = relation === '' ? name : `${name} (${relation})`;
  return [
    { term: minor ? 'Under 18; parent or guardian' : 'Parent or guardian', detail: `${who}, ${reach}` },
  ];
}

function reachFacts(view: SittingView, studio: Studio): Fact[] {
  const { contact } = view;
  const ways: Record<typeof contact.reachBy, Fact> = {
    email: { term: 'E-mail', detail: <a href={`mailto:${contact.email}`}>{contact.email}</a> },
    telephone: {
      term: 'Telephone',
      detail: <a href={`tel:${contact.telephone.replace(/[^\d+]/g, '')}`}>{contact.telephone}</a>,
    },
    letter: { term: 'Letter', detail: <Lines text={contact.postalAddress} /> },
  };
  const given = { email: contact.email, telephone: contact.telephone, letter: contact.postalAddress };
  const others = (['email', 'telephone', 'letter'] as const).filter(
    (way) => way !== contact.reachBy && given[way] !== '',
  );
  return [
    {
      term: 'Reach by',
      detail: `${contact.name}, by ${contact.reachBy === 'email' ? 'e-mail' : contact.reachBy}`,
    },
    ways[contact.reachBy],
    ...others.map((way) => ways[way]),
    {
      term: 'Comes from',
      detail: [contact.home?.name ?? 'not known', contact.postcode].filter(Boolean).join(', '),
    },
    { term: 'Journey', detail: journeyInFull(view, studio) },
  ];
}

/** At first sight, and what they are told on their own page, by their clocks. */
function journeyInFull({ contact, journey, place, sitting }: SittingView, studio: Studio): ComponentChildren {
  const visit = place?.holds && ['offered', 'confirmed'].includes(sitting.state) ? place : null;
  const told = contactJourneyTold(contact, studio, visit);
  const short = journeyInShort(journey);
  if (!told) return short;
  const shown = told.facts.filter(({ term }) => term !== 'From' && term !== 'Straight line');
  return (
    <>
      {short}
      {told.leaveBy && (
        <div class="small">
          They are told to leave by {told.leaveBy.when} ({told.leaveBy.zone}).
        </div>
      )}
      <details>
        <summary>What they are told</summary>
        <Facts items={shown} />
      </details>
    </>
  );
}

interface FromTheShelfProps extends SetAsideProps {
  outlook: Outlook | null;
  noBath: NoBath | null;
  /** The page of the silver baths. */
  baths: string;
}

function FromTheShelf({ outlook, noBath, baths, ...table }: FromTheShelfProps) {
  return (
    <>
      <h2>From the shelf</h2>
      {outlook && (
        <p>
          <StockLine stock={outlook} />
        </p>
      )}
      {noBath && (
        <p>
          <a href={baths}>Silver bath</a>
          <WithoutBath reason={noBath} />
        </p>
      )}
      <SetAsideTable {...table} />
    </>
  );
}

interface DeclineProps {
  action: string;
  formToken: string;
  values: FormValues;
  errors: FieldProblem[];
}

function Decline({ action, formToken, values, errors }: DeclineProps) {
  return (
    <>
      <h2>Decline</h2>
      <Form action={action} csrf={formToken} values={values} errors={errors} label="Decline">
        <TextArea
          name="message"
          label="A word to them"
          hint={`They read it as you write it. At most ${LONGEST_MESSAGE} characters.`}
        />
        <Button kind="danger">Decline this request</Button>
      </Form>
    </>
  );
}

/** Text of several lines as it was typed. */
function Lines({ text }: { text: string }) {
  return text.split('\n').map((line, at) => <div key={`line ${at + 1}`}>{line}</div>);
}
