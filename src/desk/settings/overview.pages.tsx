// The settings at a glance, and what was changed of them.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted } from '../../lib/words.js';
import type { HistoryLine } from '../../platform/db/history.js';
import type { RoomRules } from '../../room/rules.schemas.js';
import { isExtraDay } from '../../room/openings.calc.js';
import { weekdaysInWords } from '../../room/words.calc.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { Facts } from '../../platform/html/kit/facts.js';
import { DeskPage } from '../frame.pages.js';
import { deedInWords, momentInWords } from '../words.calc.js';
import { PAGES, SECTIONS, type Section, settingsPath } from './frame.pages.js';

const CHANGES_SHOWN = 20;

const OTHERS = (Object.keys(PAGES) as (keyof typeof PAGES)[]).filter((one) => !(one in SECTIONS));

interface OverviewProps {
  visit: StaffVisit;
  studio: Studio;
  rules: RoomRules;
  history: HistoryLine[];
}

export function OverviewPage({ visit, studio, rules, history }: OverviewProps) {
  const weekly = rules.rhythms.filter((one) => !isExtraDay(one));
  const weekdays = [...new Set(weekly.map((one) => one.weekday))];
  const details: Record<Section, string> = {
    rhythm: weekdaysInWords(weekdays, 'no weekday yet'),
    closures: `${counted(rules.closures.length, 'closure')}, ${counted(rules.rhythms.length - weekly.length, 'extra day')}`,
    kinds: rules.kinds.map((one) => one.name).join(', ') || 'none named: every sitting is alike',
    people: `a helper on ${weekdaysInWords(rules.helper.weekdays, 'no day')}`,
    light: `${studio.windowKind}; ${counted(studio.horizonMonths, 'month')} ahead`,
  };
  return (
    <DeskPage visit={visit} title="Settings" at="/settings">
      <p>Whatever you change, you first see what it opens and closes, and whose sitting it touches.</p>
      <Facts
        items={(Object.keys(SECTIONS) as Section[]).map((one) => ({
          term: SECTIONS[one],
          detail: (
            <>
              {details[one]} ·{' '}
              <a href={settingsPath(visit, one)}>
                look<span class="unseen"> at {SECTIONS[one].toLowerCase()}</span>
              </a>
            </>
          ),
        }))}
      />
      <nav class="actions" aria-label="More settings">
        {OTHERS.map((one) => (
          <a key={one} href={settingsPath(visit, one)}>
            {PAGES[one]}
          </a>
        ))}
      </nav>
      {history.length > 0 && (
        <>
          <h2>What was changed</h2>
          <ul>
            {history.slice(0, CHANGES_SHOWN).map((line) => (
              <li key={`${line.at} ${line.note}`}>
                {momentInWords(studio.zone, line.at)}, {line.who}: {line.note || deedInWords(line)}
              </li>
            ))}
          </ul>
        </>
      )}
    </DeskPage>
  );
}
