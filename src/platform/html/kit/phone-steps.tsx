// How to put a calendar link on a phone or into another calendar, in plain words, for the kinds there are. What each kind
// does is common practice without a source; none is named.
import { useWords } from './spoken.js';

interface PhoneStepsProps {
  /** No other device can reach the address: the studio runs on this computer alone. */
  local: boolean;
  /** Letters come to whoever it is for; otherwise it is the studio's own. */
  letters: boolean;
}

export function PhoneSteps({ local, letters }: PhoneStepsProps) {
  const { steps } = useWords().ownCalendar;
  const { paper, know } = steps;
  return (
    <>
      {local && <p>{steps.local}</p>}
      <h2>{steps.which}</h2>
      {[steps.own, steps.account, steps.computer].map(({ title, says }) => (
        <section key={title}>
          <h3>{title}</h3>
          <ol>
            {says.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ol>
        </section>
      ))}
      <h3>{paper.title}</h3>
      <p>{letters ? paper.letters : paper.sheets}</p>
      <h2>{know.title}</h2>
      <ul>
        <li>{know.follow}</li>
        <li>
          {know.looks}
          {letters && know.letterFirst}
        </li>
        <li>{know.reading}</li>
        <li>{know.ended}</li>
      </ul>
    </>
  );
}
