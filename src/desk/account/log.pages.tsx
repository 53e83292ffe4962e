// What was done in the studio, by whom and when, the newest first. Lines are only ever added.
import type { StaffVisit } from '../../accounts/visits.service.js';
import type { HistoryRow } from '../../platform/db/history.js';
import { Table } from '../../platform/html/kit/table.js';
import { SettingsFrame, settingsPath } from '../settings/frame.pages.js';
import { deedInWords, momentInWords } from '../words.calc.js';

/** Pages of what a line is about, under /desk. */
const PAGES: Record<string, string> = {
  sitting: 'requests',
  teaching: 'teaching',
  item: 'shelf/items',
  plate: 'plates',
  contact: 'people',
};

interface LogProps {
  visit: StaffVisit;
  lines: HistoryRow[];
  /** The id to go on from; null where this was all. */
  older: bigint | null;
}

export function LogPage({ visit, lines, older }: LogProps) {
  const desk = `/s/${visit.studio.slug}/desk`;
  return (
    <SettingsFrame visit={visit} section="log">
      <p>
        Every change stands here, with who made it. Nothing in it can be changed or taken out, except words
        that named somebody who is erased.
      </p>
      <Table
        caption="What was done, the newest first"
        columns={[{ head: 'When' }, { head: 'Who' }, { head: 'About' }, { head: 'What' }]}
        rows={lines.map((line) => {
          const to = PAGES[line.about_kind];
          return [
            momentInWords(visit.studio.zone, line.at),
            line.who === 'contact' ? 'whoever asked' : line.who,
            to ? <a href={`${desk}/${to}/${line.about_id}`}>{line.about_kind}</a> : line.about_kind,
            deedInWords(line),
          ];
        })}
      />
      {older !== null && (
        <p class="alone">
          <a href={`${settingsPath(visit, 'log')}?before=${older}`}>Older</a>
        </p>
      )}
    </SettingsFrame>
  );
}
