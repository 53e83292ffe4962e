// The sheets of labels as they are printed: a document of its own, black on white, drawn in millimetres. What is said
// about it stands on the screen only.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { assetUrl } from '../../platform/html/static-files.js';
import {
  type LabelSheet,
  LEADING,
  PADDING,
  PAPERS,
  type PlacedLabel,
  SHORT,
  sheetsOf,
} from '../../plates/labels.calc.js';
import type { Labels } from '../../plates/labels.service.js';
import { deskPath } from './frame.pages.js';

export function LabelSheetsPage({ visit, labels }: { visit: StaffVisit; labels: Labels }) {
  const { sheet, tooLong, empty } = labels;
  const sheets = sheetsOf(labels.labels, sheet);
  return (
    <html lang="en-GB">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex" />
        <title>{`Labels, ${visit.studio.name}`}</title>
        <link rel="stylesheet" href={assetUrl('labels.css')} />
      </head>
      <body>
        <main>
          <div class="on-screen">
            <h1>Labels for the back of plates</h1>
            <p>
              {labels.labels.length === 0
                ? 'There is nothing to print.'
                : `${sheets.length === 1 ? 'One sheet' : `${sheets.length} sheets`} of ${sheet.paper}, ${
                    labels.labels.length === 1 ? 'one label' : `${labels.labels.length} labels`
                  }. Print this page at 100 %, without margins of the browser’s own; these words are not printed. Cut along the dashed lines.`}
            </p>
            {tooLong.length > 0 && (
              <p>
                <strong>
                  Not printed: plate {tooLong.join(', ')}. More stands on it than fits on a label of{' '}
                  {sheet.width} by {sheet.height} mm.
                </strong>{' '}
                Make the labels larger, or put a line away.
              </p>
            )}
            {empty.length > 0 && (
              <p>Not printed: plate {empty.join(', ')}. Nothing of what stands on a label is known of it.</p>
            )}
            <p class="alone">
              <a href={deskPath(visit, '/plates/labels')}>Back to the choice of plates</a>
            </p>
          </div>
          {sheets.map((placed, at) => (
            <OneSheet key={placed[0]?.number} sheet={sheet} labels={placed} page={at + 1} />
          ))}
        </main>
      </body>
    </html>
  );
}

function OneSheet({ sheet, labels, page }: { sheet: LabelSheet; labels: PlacedLabel[]; page: number }) {
  const { width, height } = PAPERS[sheet.paper];
  return (
    <section class={`sheet ${sheet.paper}`}>
      <svg
        class="label-drawing"
        width={`${width}mm`}
        height={`${height - SHORT}mm`}
        viewBox={`0 0 ${width} ${height - SHORT}`}
      >
        <title>{`Sheet ${page}`}</title>
        <rect width={width} height={height} fill="#fff" />
        {labels.map(({ number, text, x, y }) => (
          <g key={number} class="label" transform={`translate(${x} ${y})`}>
            <rect
              class="cut"
              width={sheet.width}
              height={sheet.height}
              fill="none"
              stroke="#000"
              stroke-width="0.1"
              stroke-dasharray="1.5 1"
            />
            {text.lines.map((line, at) => (
              <text
                key={`line ${at + 1}`}
                x={PADDING}
                y={PADDING + text.size * (0.95 + at * LEADING)}
                font-size={text.size}
                font-weight={line.strong ? 700 : 400}
                fill="#000"
                textLength={line.exact ? undefined : line.width}
                lengthAdjust={line.exact ? undefined : 'spacingAndGlyphs'}
              >
                {line.text}
              </text>
            ))}
          </g>
        ))}
      </svg>
    </section>
  );
}
