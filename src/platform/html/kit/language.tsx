// On somebody's own page: the language of their letters, their calendar and the page itself, and changing it.
import { LANGUAGE_NAMES, LANGUAGES, type Language } from '../../../words/languages.js';
import { Button } from './button.js';
import { RadioGroup } from './choices.js';
import { Card } from './facts.js';
import { Form } from './form.js';
import { useWords } from './spoken.js';

interface LanguageCardProps {
  /** As it is now. */
  language: Language;
  /** Where it is changed. */
  action: string;
  csrf: string;
}

export function LanguageCard({ language, action, csrf }: LanguageCardProps) {
  const { place, correct } = useWords();
  const words = place.language;
  return (
    <Card title={words.title}>
      <Form action={action} csrf={csrf} values={{ language }} label={words.title}>
        <RadioGroup
          name="language"
          label={correct.language}
          hint={words.hint}
          options={LANGUAGES.map((one) => ({ value: one, label: LANGUAGE_NAMES[one] }))}
        />
        <Button kind="quiet">{words.keep}</Button>
      </Form>
    </Card>
  );
}
