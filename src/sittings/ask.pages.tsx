// The form by which somebody asks for a sitting. Props to markup.
import { studioFrame } from '../studios/frame.calc.js';
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import { PLACES_CREDIT } from '../travel/place.calc.js';
import { Days, Home, More } from './ask-days.pages.js';
import { type AskProps, Guardian, KindOfSitting, Plates, Sitters, You } from './ask-parts.pages.js';

export function AskPage(props: AskProps) {
  const { studio, formToken, formKey, answers, problems = [], notice } = props;
  const home = `/s/${studio.slug}`;
  return (
    <Page
      title="Ask for a sitting"
      {...studioFrame(studio)}
      nav={[
        { href: home, label: 'Open places' },
        { href: `${home}/ask`, label: 'Ask for a sitting', current: true },
      ]}
      credits={[PLACES_CREDIT]}
      errors={problems}
      notice={notice === undefined ? undefined : { tone: 'warn', text: notice }}
    >
      <p class="lead">
        Tell us who sits and which days suit. Nothing is fixed by asking: the studio reads every request and
        answers.
      </p>
      <Form action={`${home}/ask`} csrf={formToken} formKey={formKey} values={answers} errors={problems}>
        {/* Enter in a field presses the first button of a form: that must not be "Add a sitter". */}
        <button type="submit" hidden>
          Send the request
        </button>
        <You />
        {props.kinds.length > 1 && <KindOfSitting kinds={props.kinds} />}
        <Sitters {...props} />
        <Guardian />
        <Plates {...props} />
        <Home {...props} />
        <Days {...props} />
        <More />
        <Button>Send the request</Button>
      </Form>
    </Page>
  );
}
