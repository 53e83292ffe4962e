// What is still set aside for days past, on the page of what days took.
import type { StaffVisit } from '../../accounts/visits.service.js';
import { formatQuantity } from '../../lib/quantity-text.js';
import { dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { Card } from '../../platform/html/kit/facts.js';
import { Form } from '../../platform/html/kit/form.js';
import { shelfPath } from './frame.pages.js';
import type { UsedNow } from './used.service.js';

/** Days past whose bottles still hold what was set aside: used as reckoned, or not at all. */
export function Unsettled({ visit, now: { unsettled } }: { visit: StaffVisit; now: UsedNow }) {
  if (unsettled.length === 0) return null;
  return (
    <>
      <h2>Still set aside for days past</h2>
      <p>
        Say what became of it, so that the shelf is true. If a day took more or less, count the bottle after.
      </p>
      {unsettled.map(({ day, parts }) => (
        <Card key={day.toString()} title={dayInWords(day)}>
          <p>
            {parts
              .map(({ item, quantity }) => `${item.name}: ${formatQuantity(quantity, item.unit)}`)
              .join('; ')}
          </p>
          <Form
            action={shelfPath(visit, '/used/settle')}
            csrf={visit.formToken}
            label={`What became of it: ${dayInWords(day)}`}
          >
            <input type="hidden" name="day" value={day.toString()} />
            <div class="actions">
              <Button name="became" value="used">
                It was used
              </Button>
              <Button kind="quiet" name="became" value="not used">
                It was not used
              </Button>
            </div>
          </Form>
        </Card>
      ))}
    </>
  );
}
