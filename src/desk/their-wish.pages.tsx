// What somebody asks to change of the plan, for the owner to answer: by a letter, on the telephone, or by doing it.
import { Button } from '../platform/html/kit/button.js';
import { Form } from '../platform/html/kit/form.js';
import type { Wish } from '../sittings/corrections.schemas.js';
import { momentInWords } from './words.calc.js';

interface TheirWishProps {
  wish: Wish;
  zone: string;
  action: string;
  formToken: string;
}

export function TheirWish({ wish, zone, action, formToken }: TheirWishProps) {
  return (
    <section class="card" id="wish">
      <h2>They ask for a change</h2>
      {wish.words.split('\n').map((line, at) => (
        <div key={`line ${at + 1}`}>{line}</div>
      ))}
      <p class="small">
        Asked {momentInWords(zone, wish.askedAt)}. Nothing is changed by it: look whether day, light and glass
        are enough, and tell them.
      </p>
      <Form action={action} csrf={formToken} label="They ask for a change">
        <input type="hidden" name="asked" value={wish.askedAt.toString()} />
        <Button kind="quiet">I have answered this</Button>
      </Form>
    </section>
  );
}
