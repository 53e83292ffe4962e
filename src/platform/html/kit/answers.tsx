// Things that people are asked, person by person, each answered by a press of its own button. Props to markup.
import { Button } from './button.js';
import { Card } from './facts.js';
import { Form } from './form.js';

/** One thing that one person is asked. */
export interface Asked {
  title: string;
  words: string;
  /** How it stands. */
  told: string;
  /** Null where it cannot be answered (any more). */
  press: { button: string; value: string; fields: Record<string, string> } | null;
}

interface AnswersProps {
  title: string;
  lead: string;
  people: { key: string; name: string; heading: string; asked: Asked[] }[];
  action: string;
  formToken: string;
}

/** Nothing where nobody is asked anything. The pressed button is sent as `answer`. */
export function Answers({ title, lead, people, action, formToken }: AnswersProps) {
  if (people.length === 0) return null;
  return (
    <Card title={title}>
      <p>{lead}</p>
      {people.map(({ key, name, heading, asked }) => (
        <section key={key}>
          <h3>{heading}</h3>
          {asked.map((one) => (
            <div class="field" key={one.title}>
              <p>
                <strong>{one.title}.</strong> {one.words}
              </p>
              <p class="small">{one.told}</p>
              {one.press && (
                <Form action={action} csrf={formToken} label={`${name}: ${one.title}`}>
                  {Object.entries(one.press.fields).map(([field, value]) => (
                    <input key={field} type="hidden" name={field} value={value} />
                  ))}
                  <Button kind="quiet" name="answer" value={one.press.value}>
                    {one.press.button}
                    <span class="unseen">{` : ${one.title}, ${name}`}</span>
                  </Button>
                </Form>
              )}
            </div>
          ))}
        </section>
      ))}
    </Card>
  );
}
