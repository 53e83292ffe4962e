// The frame of the shelf's pages: the ways between them.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { FieldProblem } from '../../platform/problems.js';
import { DeskPage, type Notice } from '../frame.pages.js';

/** The pages one goes to from any of them: the path under /desk/shelf, and its word. */
const SHELF_WAYS = {
  '': 'Shelf',
  '/mixing': 'To mix',
  '/orders': 'To order',
  '/formulas': 'Formulas',
  '/baths': 'Silver baths',
  '/used': 'What a day took',
  '/suppliers': 'Suppliers',
} as const;
export type ShelfWay = keyof typeof SHELF_WAYS;

export const shelfPath = (visit: StaffVisit, path = '') => `/s/${visit.studio.slug}/desk/shelf${path}`;

interface ShelfFrameProps {
  visit: StaffVisit;
  title: string;
  at: ShelfWay;
  notice?: Notice | undefined;
  errors?: FieldProblem[] | undefined;
  children: ComponentChildren;
}

export function ShelfFrame({ visit, title, at, notice, errors, children }: ShelfFrameProps) {
  return (
    <DeskPage visit={visit} title={title} at="/shelf" notice={notice} errors={errors} wide>
      <nav class="actions no-print" aria-label="Of the shelf">
        {(Object.keys(SHELF_WAYS) as ShelfWay[]).map((way) => (
          <a key={way} href={shelfPath(visit, way)} aria-current={way === at ? 'page' : undefined}>
            {SHELF_WAYS[way]}
          </a>
        ))}
      </nav>
      {children}
    </DeskPage>
  );
}
