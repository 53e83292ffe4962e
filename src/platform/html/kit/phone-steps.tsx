// How to put a calendar link on a phone or into another calendar, in plain words, for the kinds there are. What each kind
// does is common practice without a source; none is named.
interface PhoneStepsProps {
  /** No other device can reach the address: the studio runs on this computer alone. */
  local: boolean;
  /** Letters come to whoever it is for; otherwise it is the studio's own. */
  letters: boolean;
}

export function PhoneSteps({ local, letters }: PhoneStepsProps) {
  return (
    <>
      {local && (
        <p>This studio runs on this computer alone for now, so other devices cannot reach the address.</p>
      )}
      <h2>Which is yours?</h2>
      <h3>A phone or tablet that comes with a calendar of its own</h3>
      <ol>
        <li>Press the button on the phone itself, or scan the picture with its camera.</li>
        <li>It asks whether to subscribe, or to follow this calendar. Say yes.</li>
        <li>If it asks for an account or a password, leave both empty: the address is all it needs.</li>
      </ol>
      <h3>A phone whose calendar belongs to a mail account</h3>
      <ol>
        <li>If nothing happens when you press the button, the phone cannot follow a calendar by itself.</li>
        <li>
          Copy the address. On a computer, sign in to that mail account, open its calendar, and look for “add
          other calendars”, then “from an address” or “from URL”. Paste it there.
        </li>
        <li>
          On the phone, open the calendar’s settings and switch the new calendar on, so that it is shown.
        </li>
        <li>
          Or take a small program for following calendars from the phone’s store, and give it the address.
        </li>
      </ol>
      <h3>A calendar program on a computer</h3>
      <ol>
        <li>Press the button on the computer. If nothing opens, copy the address.</li>
        <li>
          Look in the program’s menu for “new calendar”, then “on the network” or “subscribe”, and paste it.
        </li>
        <li>Choose that it only reads. You can also choose how often it looks.</li>
      </ol>
      <h3>A paper calendar</h3>
      <p>
        {letters ? 'Write it down from the letter: it has day and hour.' : 'The day sheets can be printed.'}
      </p>
      <h2>Please know</h2>
      <ul>
        <li>Follow it; do not import it. What is imported stays as it was that day.</li>
        <li>
          A calendar looks again when it likes: some after an hour, some once a day, and nobody here can make
          it come sooner.
          {letters && ' So when anything changes, the letter comes first. Believe the letter.'}
        </li>
        <li>It is for reading. What you change in your calendar reaches nobody.</li>
        <li>
          Once the link is ended or made anew, the old address gives nothing more. A calendar that followed it
          may show what it had; delete it there.
        </li>
      </ul>
    </>
  );
}
