// A letter as HTML: one narrow column, no images, no remote parts; mail programs know little CSS.
import type { Letter } from './letters.schemas.js';

export function LetterPage({ letter }: { letter: Letter }) {
  return (
    <html lang={letter.language}>
      <head>
        <meta charset="utf-8" />
        <title>{letter.subject}</title>
      </head>
      <body>
        {letter.greeting !== '' && <p>{letter.greeting}</p>}
        {letter.paragraphs.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {letter.facts.length > 0 && (
          <table>
            <tbody>
              {letter.facts.map(({ term, detail }) => (
                <tr key={term}>
                  <th scope="row" align="left">
                    {term}
                  </th>
                  <td>{detail}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
        {letter.action && (
          <p>
            <a href={letter.action.url}>{letter.action.label}</a>
          </p>
        )}
        {letter.closing.split('\n').map((line) => (
          <div key={line}>{line}</div>
        ))}
      </body>
    </html>
  );
}
