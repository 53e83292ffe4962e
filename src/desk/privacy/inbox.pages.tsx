// Somebody who asks to be erased, as a line of the desk's front page.
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { ToErase } from '../inbox.calc.js';
import { momentInWords } from '../words.calc.js';

export function AsksToBeErased({ visit: { studio }, one }: { visit: StaffVisit; one: ToErase }) {
  return (
    <>
      <a href={`/s/${studio.slug}/desk/people/${one.contactId}`}>{one.name}</a>
      <p class="small">Asked {momentInWords(studio.zone, one.askedAt)}. See what goes and what stays.</p>
    </>
  );
}
