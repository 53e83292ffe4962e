// The words of letters: which are the studio's own, and the page of one, with what can be put in and how it reads.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { Form, TextArea, TextField } from '../../platform/html/kit/form.js';
import { Table } from '../../platform/html/kit/table.js';
import type { FieldProblem } from '../../platform/problems.js';
import { letterText } from '../../reminders/letters.calc.js';
import type { Letter } from '../../reminders/letters.schemas.js';
import { variablesOf } from '../../reminders/wordings.calc.js';
import { slugOf, WORDED, type WordedKind, type WordingVersion } from '../../reminders/wordings.schemas.js';
import type { Worded } from '../../reminders/wordings.service.js';
import { LANGUAGE_NAMES, LANGUAGES, type Language } from '../../words/languages.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import { LetterText } from '../mail.pages.js';
import { momentInWords } from '../words.calc.js';
import { WORDED_WORDS } from './wordings-words.calc.js';

const wordsPath = ({ studio }: StaffVisit) => `/s/${studio.slug}/desk/mail/words`;

export function WordingsPage({ visit, all }: { visit: StaffVisit; all: WordingVersion[] }) {
  const state = (kind: WordedKind, language: Language) => {
    const newest = all.find((one) => one.kind === kind && one.language === language);
    return !newest || newest.body === '' ? 'ours' : `yours, version ${newest.version}`;
  };
  return (
    <DeskPage visit={visit} title="The words of letters" at="/mail" wide>
      <p>
        Each letter has our words until you write your own, for each language by itself. Greeting, facts, the
        way to their own page and your address stand in every letter, whatever you write.
      </p>
      {Object.entries(WORDED).map(([group, kinds]) => (
        <Table
          key={group}
          caption={group}
          columns={['Letter', ...LANGUAGES.map((one) => LANGUAGE_NAMES[one])].map((head) => ({ head }))}
          rows={kinds.map((kind) => [
            WORDED_WORDS[kind],
            ...LANGUAGES.map((language) => (
              <a
                key={language}
                href={`${wordsPath(visit)}/${slugOf(kind)}/${language}`}
                aria-label={`${WORDED_WORDS[kind]}, ${LANGUAGE_NAMES[language]}: ${state(kind, language)}`}
              >
                {state(kind, language)}
              </a>
            )),
          ])}
        />
      ))}
    </DeskPage>
  );
}

export interface WordingProps {
  visit: StaffVisit;
  kind: WordedKind;
  language: Language;
  worded: Worded;
  /** How it reads with the words in the form; null where something is wrong with them. */
  letter: Letter | null;
  values: Record<string, unknown>;
  errors?: FieldProblem[] | undefined;
  notice?: Notice | undefined;
}

export function WordingPage(props: WordingProps) {
  const { visit, kind, language, worded, letter, values, errors = [], notice } = props;
  const path = `${wordsPath(visit)}/${slugOf(kind)}/${language}`;
  const variables = Object.entries(variablesOf(kind));
  return (
    <DeskPage
      visit={visit}
      title={`${WORDED_WORDS[kind]} (${LANGUAGE_NAMES[language]})`}
      at="/mail"
      errors={errors}
      notice={notice}
    >
      <p class="actions">
        <a href={wordsPath(visit)}>The words of all letters</a>
        {LANGUAGES.filter((one) => one !== language).map((one) => (
          <a key={one} href={`${wordsPath(visit)}/${slugOf(kind)}/${one}`}>
            The same letter in {LANGUAGE_NAMES[one]}
          </a>
        ))}
      </p>
      <Form action={path} csrf={visit.formToken} label="Your words" values={values} errors={errors}>
        <input type="hidden" name="seen" value={String(worded.versions[0]?.version ?? 0)} />
        <TextField name="subject" label="Subject" autocomplete="off" />
        <TextArea
          name="body"
          label="What the letter says"
          hint="An empty line begins a new paragraph. The greeting is there already."
          rows={12}
        />
        <Button name="do" value="keep">
          Keep these words
        </Button>
        <Button kind="quiet" name="do" value="look">
          Show how they read
        </Button>
      </Form>
      <h2>What is put in</h2>
      <p>Write a name in braces, and each letter has in its place what is so for it.</p>
      <Facts items={variables.map(([name, what]) => ({ term: `{${name}}`, detail: what }))} />
      <Preview letter={letter} worded={worded} />
      <Ours {...worded.ours} />
      <Versions visit={visit} versions={worded.versions} path={path} />
    </DeskPage>
  );
}

function Preview({ letter, worded }: Pick<WordingProps, 'letter' | 'worded'>) {
  const { contactName } = worded.example.about;
  return (
    <>
      <h2>How it reads</h2>
      {letter === null ? (
        <p class="empty">What is wrong above is to be put right first.</p>
      ) : (
        <>
          <p>
            {worded.invented
              ? 'The person in it is invented: no such letter has gone yet.'
              : `As it would go to ${contactName}, by what a letter to them told; what this letter tells besides is invented.`}{' '}
            The link leads to your front page here, and in the letter to their own page.
          </p>
          <h3>As HTML</h3>
          <p lang={letter.language}>
            <strong>{letter.subject}</strong>
          </p>
          <LetterText letter={letter} />
          <h3>As plain text</h3>
          <Lines language={letter.language} text={`${letter.subject}\n\n${letterText(letter)}`} />
        </>
      )}
    </>
  );
}

const Lines = ({ text, language }: { text: string; language: Language | undefined }) => (
  <p class="card" lang={language}>
    {text
      .trim()
      .split('\n')
      .map((line, at) => (
        <span key={`line ${at + 1}`}>
          {line}
          <br />
        </span>
      ))}
  </p>
);

function Ours({ subject, body }: Worded['ours']) {
  return (
    <details>
      <summary>Our words for this letter</summary>
      <Lines text={`${subject}\n\n${body}`} language={undefined} />
    </details>
  );
}

function Versions({
  visit,
  versions,
  path,
}: {
  visit: StaffVisit;
  versions: WordingVersion[];
  path: string;
}) {
  const back = (version: number, label: string) => (
    <Form
      key={version}
      action={`${path}/back`}
      csrf={visit.formToken}
      label={label}
      values={{ version: String(version) }}
    >
      <Button kind="quiet" name="version" value={String(version)}>
        {label}
      </Button>
    </Form>
  );
  if (versions.length === 0) return <p class="empty">It has our words, and never had others.</p>;
  return (
    <>
      <Table
        caption="Versions, the newest first; it holds"
        columns={['Version', 'Kept', 'Words', 'Back to it'].map((head) => ({ head }))}
        rows={versions.map((one, at) => [
          String(one.version),
          `${momentInWords(visit.studio.zone, one.since)}, ${one.who}`,
          one.body === '' ? 'ours' : `${one.subject}: ${one.body}`,
          at === 0 || one.body === '' ? '' : back(one.version, `Back to version ${one.version}`),
        ])}
      />
      {versions[0]?.body !== '' && back(0, 'Back to our words')}
    </>
  );
}
