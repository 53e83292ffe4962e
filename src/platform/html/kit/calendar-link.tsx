// A calendar's secret address: as a link for this device, to copy, and to scan with another.
import { CopyField } from './copy-field.js';
import { QrCode } from './qr-code.js';
import { useWords } from './spoken.js';

/** The scheme that devices hand to their calendar (registered with IANA as "webcal", provisional). */
export const webcal = (url: string): string => url.replace(/^https?:/, 'webcal:');

interface CalendarLinkProps {
  /** Whole address, http or https. */
  url: string;
  /** Of the field, one on a page. */
  name: string;
  label: string;
  follow: string;
  /** What the picture is of, for those who do not see it. */
  picture: string;
  primary?: boolean;
}

export function CalendarLink({ url, name, label, follow, picture, primary = false }: CalendarLinkProps) {
  const words = useWords().ownCalendar;
  return (
    <>
      <p>
        {words.here}{' '}
        <a class={primary ? 'button primary' : 'button quiet'} href={webcal(url)}>
          {follow}
        </a>
      </p>
      <details>
        <summary>{words.scan}</summary>
        <p>{words.point}</p>
        <QrCode text={webcal(url)} label={picture} />
      </details>
      <CopyField name={name} label={label} value={url} hint={words.anyProgram} />
    </>
  );
}

/** Whether no other device can reach an address. */
export function isLoopback(url: string): boolean {
  const { hostname } = new URL(url);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
