// What one sees at an installation that houses no studio, or several.
import { Page } from '../platform/html/shell.js';

/** @param empty nobody has founded a studio here yet */
export function FrontDoorPage({ empty }: { empty: boolean }) {
  return (
    <Page title="Plateday">
      <p class="lead">A place to book sittings at a wet-plate portrait studio.</p>
      <p>
        For anybody: <a href="/daylight">the light of a day at any place</a>,{' '}
        <a href="/chemistry">the glass and solutions that plates need</a>, and{' '}
        <a href="/chemistry/bath">the strength of a silver bath</a>.
      </p>
      {empty ? (
        <p>
          Nobody has set up a studio here yet. The link to do so stands in the window in which Plateday was
          started.
        </p>
      ) : (
        <p>Each studio here has an address of its own. Please use the one you were given.</p>
      )}
    </Page>
  );
}
