// The frame of the desk's pages: the ways between them, who is signed in, what was just done.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../accounts/visits.service.js';
import type { Tone } from '../platform/html/kit/notices.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';

export interface Notice {
  tone: Tone;
  text: string;
}

interface DeskPageProps {
  visit: StaffVisit;
  title: string;
  /** The path of the page's entry among the ways, under /desk. */
  at:
    | ''
    | '/waiting'
    | '/teaching'
    | '/light'
    | '/prepare'
    | '/owed'
    | '/shelf'
    | '/mail'
    | '/calendar'
    | '/settings';
  notice?: Notice | undefined;
  errors?: FieldProblem[] | undefined;
  /** Whether distances are told, whose source is named then. */
  distances?: boolean;
  wide?: boolean;
  children: ComponentChildren;
}

/** `staff`: also for the assistant. */
const WAYS = [
  { at: '', label: 'Desk', staff: true },
  { at: '/waiting', label: 'Waiting list', staff: false },
  { at: '/teaching', label: 'Teaching', staff: true },
  { at: '/light', label: 'Light', staff: false },
  { at: '/prepare', label: 'Prepare', staff: true },
  { at: '/owed', label: 'Plates', staff: true },
  { at: '/shelf', label: 'Shelf', staff: true },
  { at: '/mail', label: 'Mail', staff: false },
  { at: '/calendar', label: 'Your calendar link', staff: false },
  { at: '/settings', label: 'Settings', staff: false },
] as const;

export function DeskPage(props: DeskPageProps) {
  const { visit, at, children, distances = false, ...page } = props;
  const { studio, account, formToken } = visit;
  const home = `/s/${studio.slug}`;
  const ways = WAYS.filter((way) => way.staff || account.role === 'owner');
  return (
    <Page
      {...page}
      studioName={studio.name}
      homeHref={home}
      nav={ways.map((way) => ({ href: `${home}/desk${way.at}`, label: way.label, current: way.at === at }))}
      user={{
        name: account.name,
        href: `${home}/desk/account`,
        signOutAction: `${home}/sign-out`,
        csrf: formToken,
      }}
      {...(distances ? { credits: [PLACES_CREDIT] } : {})}
      unlisted
    >
      {children}
    </Page>
  );
}
