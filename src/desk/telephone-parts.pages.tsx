// What every call of the list to telephone has: the number, what is ticked, why mail does not do.
import type { StaffVisit } from '../accounts/visits.service.js';
import type { Contact } from '../people/people.schemas.js';
import type { Why } from '../reminders/telephone.calc.js';

export const WHY_WORDS: Record<Why, string> = {
  'no e-mail': '',
  'mail refused': 'Their mail was refused.',
  'too near': 'A letter went by mail, and may come too late.',
};

export function ToRing({ contact }: { contact: Contact }) {
  if (contact.telephone === '') return <>No number is known; {contact.email || 'no address either'}.</>;
  return (
    <a class="number" href={`tel:${contact.telephone.replace(/[^\d+]/g, '')}`}>
      {contact.telephone}
    </a>
  );
}

export const Letters = ({ mails }: { mails: { mail_id: string }[] }) => (
  <input type="hidden" name="letters" value={mails.map((one) => one.mail_id).join(' ')} />
);

export const telephonePath = ({ studio }: StaffVisit, rest = '') => `/s/${studio.slug}/desk/telephone${rest}`;
