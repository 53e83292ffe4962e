// What people are asked to agree to, each by itself, with a button for yes and one to take it back: on their own
// page, and at the desk for a yes that was told. Props to markup.
import { dayInWords } from '../lib/words.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Button } from '../platform/html/kit/button.js';
import { Card } from '../platform/html/kit/facts.js';
import { Form } from '../platform/html/kit/form.js';
import type { Consent, ConsentLine } from './consents.calc.js';
import { PURPOSE_WORDS } from './words.calc.js';

interface ConsentsProps {
  lines: ConsentLine[];
  /** Zone in which days are told. */
  zone: string;
  action: string;
  formToken: string;
  /** Whose page it is: their own, or the desk. */
  at: 'own page' | 'desk';
}

export function Consents(props: ConsentsProps) {
  const { lines, at } = props;
  if (lines.length === 0) return null;
  const people = [...new Set(lines.map((one) => one.sitterId))];
  return (
    <Card title={at === 'desk' ? 'What they have agreed to' : 'What you agree to'}>
      <p>
        {at === 'desk'
          ? 'Each can be told to you, and taken back, at any time.'
          : 'Each is by itself, and none is needed to sit. You can take any of them back here at any time. A parent or guardian answers for whoever is under 18.'}
      </p>
      {people.map((id) => {
        const own = lines.filter((one) => one.sitterId === id);
        return (
          <section key={id ?? ''}>
            <h3>{id === null ? `${own[0]?.name}, who hears from us` : own[0]?.name}</h3>
            {own.map((line) => (
              <Line key={line.purpose} line={line} {...props} />
            ))}
          </section>
        );
      })}
    </Card>
  );
}

function Line({ line, zone, action, formToken, at }: ConsentsProps & { line: ConsentLine }) {
  const { live, past, wording } = line;
  const title = PURPOSE_WORDS[line.purpose];
  const yes = at === 'desk' ? 'They said yes' : 'I agree';
  const back = at === 'desk' ? 'They took it back' : 'Take this back';
  const about = ` : ${title}, ${line.name}`;
  return (
    <div class="field">
      <p>
        <strong>{title}.</strong> {live ? live.words : wording.words}
      </p>
      <p class="small">
        {live ? givenInWords(live, zone, at) : 'Not agreed to.'}
        {past.map((one) => ` ${takenBackInWords(one, zone)}`)}
      </p>
      {(live || wording.words !== '') && (
        <Form action={action} csrf={formToken} label={`${line.name}: ${title}`}>
          <input type="hidden" name="sitter" value={line.sitterId ?? ''} />
          <input type="hidden" name="purpose" value={line.purpose} />
          <input type="hidden" name="version" value={live?.version ?? wording.version} />
          <Button kind="quiet" name="answer" value={live ? 'withdraw' : 'agree'}>
            {live ? back : yes}
            <span class="unseen">{about}</span>
          </Button>
        </Form>
      )}
    </div>
  );
}

function givenInWords({ givenAt, givenHow, givenBy, version }: Consent, zone: string, at: string): string {
  const how = givenHow === 'page' ? 'on their own page' : `told to ${givenBy}`;
  const day = dayInWords(instantToWall(zone, givenAt));
  const where = at === 'own page' && givenHow === 'page' ? '' : ` ${how},`;
  return `Agreed to on ${day},${where} in version ${version} of these words.`;
}

function takenBackInWords({ givenAt, withdrawnAt, version }: Consent, zone: string): string {
  const on = (instant: typeof givenAt) => dayInWords(instantToWall(zone, instant));
  return withdrawnAt === null
    ? ''
    : `Version ${version} was agreed to on ${on(givenAt)} and taken back on ${on(withdrawnAt)}.`;
}
