// Reads our own pages as a browser without script would: which fields a form would send, and which sentence
// stands beside a field. Made for the markup of src/platform/html/kit, and for no other.

export type Sent = Record<string, string | string[]>;

type Tag = Record<string, string>;

/** The inside of a tag: attributes, whose values may hold ">". */
const INSIDE = '((?:[^>"]|"[^"]*")*)';
const tags = (name: string, rest = '') => new RegExp(`<${name}\\b${INSIDE}>${rest}`, 'g');
const TO_END = (name: string) => `([\\s\\S]*?)</${name}>`;

/** Text as a person reads it, from text or an attribute of the markup. */
export const readable = (markup: string): string =>
  markup
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, '&');

/** What the form of an address would send as it stands; no button, no token unless it is in a field. */
export function fieldsOf(html: string, action: string): Sent {
  const form = formsOf(html).find((one) => one.action === action);
  if (!form) throw new Error(`The page has no form for ${action}.`);
  const sent: Record<string, string[]> = {};
  const add = (name: string | undefined, value: string) => {
    if (name !== undefined) sent[name] = [...(sent[name] ?? []), value];
  };
  for (const [, attributes = ''] of form.inside.matchAll(tags('input'))) {
    const { type = 'text', name, value = '', checked } = tag(attributes);
    if (!['checkbox', 'radio'].includes(type) || checked !== undefined) add(name, value);
  }
  for (const [, attributes = '', text = ''] of form.inside.matchAll(tags('textarea', TO_END('textarea'))))
    add(tag(attributes).name, readable(text));
  for (const [, attributes = '', options = ''] of form.inside.matchAll(tags('select', TO_END('select')))) {
    const all = [...options.matchAll(tags('option'))].map(([, own = '']) => tag(own));
    add(tag(attributes).name, (all.find((one) => one.selected !== undefined) ?? all[0])?.value ?? '');
  }
  return Object.fromEntries(
    Object.entries(sent).map(([name, values]) => [name, values.length === 1 ? (values[0] ?? '') : values]),
  );
}

/** The choices of a group of radio buttons or ticks: value -> label. */
export function choicesOf(html: string, name: string): Map<string, string> {
  const found = [...html.matchAll(tags('input', '<label for="[^"]*">([^<]*)</label>'))];
  return new Map(
    found.flatMap(([, attributes = '', label = '']) => {
      const one = tag(attributes);
      return one.name === name ? [[one.value ?? '', readable(label)] as const] : [];
    }),
  );
}

/** The sentence beside a field, if something on the page is described by it; else null. */
export function errorAt(html: string, field: string): string | null {
  const id = `f-${field.replace(/[^A-Za-z0-9_-]+/g, '-')}`;
  const beside = new RegExp(`<p class="field-error" id="${id}-error">(.*?)</p>`, 's').exec(html)?.[1];
  const tied = new RegExp(`aria-describedby="(?:[^"]* )?${id}-error(?: [^"]*)?"`).test(html);
  return beside !== undefined && tied ? wordsOf(beside).replace(/^Error: /, '') : null;
}

/** The summary above the page: its sentences, and the ids they lead to. */
export function summaryOf(html: string): { sentence: string; leadsTo: string }[] {
  const summary = /<section class="error-summary"[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';
  return [...summary.matchAll(/<li>(?:<a href="#([^"]*)">)?([^<]*)/g)].map(
    ([, leadsTo = '', sentence = '']) => ({ sentence: readable(sentence), leadsTo }),
  );
}

/** What a person reads on the page, markup left out. */
export const wordsOf = (html: string): string =>
  readable(
    html
      .replace(/<(script|style|svg)\b[\s\S]*?<\/\1>/g, ' ')
      .replace(/<[^>]+>/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  );

function formsOf(html: string): { action: string; inside: string }[] {
  return [...html.matchAll(tags('form', TO_END('form')))].map(([, attributes = '', inside = '']) => ({
    action: tag(attributes).action ?? '',
    inside,
  }));
}

function tag(attributes: string): Tag {
  return Object.fromEntries(
    [...attributes.matchAll(/([a-zA-Z-]+)(?:="([^"]*)")?/g)].map(([, name = '', value = '']) => [
      name.toLowerCase(),
      readable(value),
    ]),
  );
}
