// All lists of plates for an archive, and beginning one.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { HandOver } from '../../plates/hand-over.schemas.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

interface HandOversProps {
  visit: StaffVisit;
  lists: { list: HandOver; plates: number }[];
  sent?: { values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

export function HandOversPage({ visit, lists, sent }: HandOversProps) {
  const path = deskPath(visit, '/plates/hand-over');
  return (
    <PlatesFrame visit={visit} title="Plates for an archive" at="/plates/hand-over" errors={sent?.errors}>
      <p>Only plates go on a list all of whose people agree that a plate or a scan is given to an archive.</p>
      {lists.length === 0 ? (
        <p>There is no list yet.</p>
      ) : (
        <ul>
          {lists.map(({ list, plates }) => (
            <li key={list.hand_over_id}>
              <a href={`${path}/${list.hand_over_id}`}>{list.taken_by}</a>: {counted(plates, 'plate')},{' '}
              {list.given_on ? `given on ${dayInWords(list.given_on)}` : 'not given yet'}
            </li>
          ))}
        </ul>
      )}
      <Card title="Begin a list">
        <Form
          action={`${path}/new`}
          csrf={visit.formToken}
          label="Begin a list"
          values={sent?.values ?? {}}
          errors={sent?.errors ?? []}
        >
          <TextField name="takenBy" label="Who takes them" hint="The archive or museum." />
          <TextArea name="note" label="Note" optional />
          <Button>Begin this list</Button>
        </Form>
      </Card>
    </PlatesFrame>
  );
}
