// The studio's own words: what people are asked to agree to, and the house rules. Each change is a further version.
import { dayInWords } from '../../lib/words.js';
import { instantToWall } from '../../lib/zoned-time.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form, TextArea } from '../../platform/html/kit/form.js';
import { WORDED, type Worded } from '../../sittings/consents.calc.js';
import type { Words } from '../../sittings/consents.service.js';
import { PURPOSE_WORDS } from '../../sittings/words.calc.js';
import { type SectionProps, SettingsFrame } from './frame.pages.js';

const HINTS: Record<Worded, string> = {
  contact: 'Asked of whoever hears from you. Left empty, it is not asked.',
  record: 'Asked of each who sits. Left empty, it is not asked.',
  archive: 'Asked of each who sits. Left empty, it is not asked.',
  show: 'Asked of each who sits. Left empty, it is not asked.',
  house_rules: 'Shown where people say what they bring: dogs, children, lamps, food, what to wear.',
};

/** Each has a field of its own name on the one page. */
export const wordsField = (purpose: string) => `words/${purpose}`;

export function WordsPage(props: SectionProps & { words: Words }) {
  const { words } = props;
  return (
    <SettingsFrame section="words" {...props}>
      <p>
        Whoever has agreed to something has agreed to the words of that day: they are kept, and your new words
        are asked of those who come after. Settle by your local law what you have to ask.
      </p>
      {WORDED.map((purpose) => (
        <section key={purpose}>
          <h2>{PURPOSE_WORDS[purpose]}</h2>
          <WordsForm {...props} purpose={purpose} />
          <Earlier {...props} kept={words.kept.filter((one) => one.purpose === purpose)} />
        </section>
      ))}
    </SettingsFrame>
  );
}

function WordsForm({ visit, words, sent, purpose }: SectionProps & { words: Words; purpose: Worded }) {
  const { version, words: now } = words.inForce[purpose];
  const mine = sent?.answers.purpose === purpose ? sent : undefined;
  return (
    <Form
      action={`/s/${visit.studio.slug}/desk/settings/words`}
      csrf={visit.formToken}
      values={mine?.answers ?? { [wordsField(purpose)]: now }}
      errors={mine?.problems ?? []}
      label={PURPOSE_WORDS[purpose]}
    >
      <input type="hidden" name="purpose" value={purpose} />
      <input type="hidden" name="version" value={version} />
      <TextArea
        name={wordsField(purpose)}
        label={`Words for: ${PURPOSE_WORDS[purpose]}`}
        hint={HINTS[purpose]}
      />
      <Button kind="quiet">
        Keep these words<span class="unseen"> for: {PURPOSE_WORDS[purpose]}</span>
      </Button>
    </Form>
  );
}

/** The versions that were, once there is more than one. */
function Earlier({ visit, kept }: SectionProps & { kept: Words['kept'] }) {
  if (kept.length < 2) return null;
  return (
    <details>
      <summary>Earlier versions</summary>
      <ol>
        {kept.slice(1).map((one) => (
          <li key={one.version} value={one.version}>
            {one.words === '' ? 'Not asked.' : one.words}{' '}
            <span class="small">
              Kept from {dayInWords(instantToWall(visit.studio.zone, one.since))}
              {one.who === 'standard' ? '; the standard words' : `, by ${one.who}`}.
            </span>
          </li>
        ))}
      </ol>
    </details>
  );
}
