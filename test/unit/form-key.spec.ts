// The key of a form that was sent, and that of a call: kept as it came, never one of somebody else's making.
import { expect, it } from '@jest/globals';
import { FORM_KEY_FIELD, formKeyOf } from '../../src/platform/html/kit/form.js';
import { readKey } from '../../src/platform/idempotency.js';

const random = { id: () => 'a new one' };
const KEY = '3b241101-e2bb-4255-8caf-4136c566a962';

it('is that of the form, and a new one where the form has none that we could have made', () => {
  expect(formKeyOf({ [FORM_KEY_FIELD]: KEY }, random)).toBe(KEY);
  for (const key of [undefined, '', 'x', [KEY, KEY], KEY.toUpperCase(), ` ${KEY}`])
    expect(formKeyOf({ [FORM_KEY_FIELD]: key }, random)).toBe('a new one');
  expect(formKeyOf(undefined, random)).toBe('a new one');
});

it('is that of the call, or none; one that cannot be kept is refused', () => {
  expect([readKey(undefined), readKey('12345678')]).toEqual([undefined, '12345678']);
  for (const key of ['', '1234567', 'a'.repeat(256), 'tab\tinside'])
    expect(() => readKey(key)).toThrow(expect.objectContaining({ code: 'unreadable' }));
});
