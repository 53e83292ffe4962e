// The frame of the settings pages: the ways between them, and one form that asks for a preview.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { Button } from '../../platform/html/kit/button.js';
import { Form } from '../../platform/html/kit/form.js';
import type { FieldProblem } from '../../platform/problems.js';
import { DeskPage, type Notice } from '../frame.pages.js';
import type { Answers } from './forms.calc.js';

export const SECTIONS = {
  rhythm: 'Rhythm',
  closures: 'Closures and extra days',
  kinds: 'Kinds of sitting',
  people: 'People',
  light: 'Light and booking',
} as const;
export type Section = keyof typeof SECTIONS;

/** All of them; the others take no preview, since they open and close nothing. */
export const PAGES = {
  studio: 'The studio',
  ...SECTIONS,
  outside: 'Other calendars',
  words: 'Words and house rules',
  'bring-in': 'Bring in a diary',
  accounts: 'Who works here',
  log: 'What was done',
  keeping: 'How long it is kept',
  copies: 'Copies',
} as const;

/** What was typed and is wrong; `doing` and `about` tell in which of the page's forms. */
export interface Sent {
  answers: Answers;
  problems: FieldProblem[];
}

export interface SectionProps {
  visit: StaffVisit;
  notice?: Notice | undefined;
  sent?: Sent | undefined;
}

interface FrameProps extends SectionProps {
  section: keyof typeof PAGES;
  children: ComponentChildren;
}

export const settingsPath = (visit: StaffVisit, section: keyof typeof PAGES) =>
  `/s/${visit.studio.slug}/desk/settings/${section}`;

export function SettingsFrame({ visit, section, notice, sent, children }: FrameProps) {
  const title = PAGES[section];
  return (
    <DeskPage visit={visit} title={title} at="/settings" notice={notice} errors={sent?.problems} wide>
      <nav class="actions" aria-label="Settings">
        {(Object.keys(PAGES) as (keyof typeof PAGES)[]).map((one) => (
          <a key={one} href={settingsPath(visit, one)} aria-current={one === section ? 'page' : undefined}>
            {PAGES[one]}
          </a>
        ))}
      </nav>
      {children}
    </DeskPage>
  );
}

interface ChangeFormProps {
  visit: StaffVisit;
  section: Section;
  /** The change, as room/changes.schemas.ts names it. */
  doing: string;
  /** What it is about, beside what can be typed: hidden fields. */
  about?: Record<string, string>;
  values?: Answers;
  sent?: Sent | undefined;
  label?: string;
  button?: string;
  danger?: boolean;
  children?: ComponentChildren;
}

/** A form whose answer is a preview. What was sent from this very form is shown again with what is wrong. */
export function ChangeForm(props: ChangeFormProps) {
  const { visit, section, doing, about = {}, values = {}, sent, label, children } = props;
  const same =
    sent?.answers.do === doing &&
    Object.entries(about).every(([name, value]) => (sent.answers[name] ?? '') === value);
  return (
    <Form
      action={`${settingsPath(visit, section)}/preview`}
      csrf={visit.formToken}
      values={same ? sent.answers : values}
      errors={same ? sent.problems : []}
      label={label}
    >
      <input type="hidden" name="do" value={doing} />
      {Object.entries(about).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {children}
      <Button kind={props.danger === true ? 'danger' : 'primary'}>
        {props.button ?? 'See what this changes'}
      </Button>
    </Form>
  );
}
