// The frame of the pages about plates after the day: the ways between them.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { FieldProblem } from '../../platform/problems.js';
import { DeskPage, type Notice } from '../frame.pages.js';

/** The path under /desk, and its word; `staff`: also for the assistant. */
const PLATE_WAYS = [
  { at: '/owed', label: 'Still owed', staff: true },
  { at: '/plates', label: 'All plates', staff: true },
  { at: '/plates/labels', label: 'Labels', staff: true },
  { at: '/plates/series', label: 'Series', staff: false },
  { at: '/plates/hand-over', label: 'For an archive', staff: false },
  { at: '/plates/fields', label: 'What stands on the back', staff: false },
  { at: '/owed/steps', label: 'What is owed, and when', staff: false },
  { at: '/vouchers', label: 'Gift vouchers', staff: false },
] as const;
export type PlateWay = (typeof PLATE_WAYS)[number]['at'];

export const deskPath = (visit: StaffVisit, path: string) => `/s/${visit.studio.slug}/desk${path}`;

interface PlatesFrameProps {
  visit: StaffVisit;
  title: string;
  at: PlateWay;
  notice?: Notice | undefined;
  errors?: FieldProblem[] | undefined;
  children: ComponentChildren;
}

export function PlatesFrame({ visit, title, at, notice, errors, children }: PlatesFrameProps) {
  const ways = PLATE_WAYS.filter((way) => way.staff || visit.account.role === 'owner');
  return (
    <DeskPage visit={visit} title={title} at="/owed" notice={notice} errors={errors}>
      {ways.length > 1 && (
        <nav class="actions no-print" aria-label="Of plates">
          {ways.map((way) => (
            <a key={way.at} href={deskPath(visit, way.at)} aria-current={way.at === at ? 'page' : undefined}>
              {way.label}
            </a>
          ))}
        </nav>
      )}
      {children}
    </DeskPage>
  );
}
