// Words that want to be seen: a notice over a page, a tag beside a name. The tone is told by a sign and by
// the words, the colour only repeats it.
import type { ComponentChildren } from 'preact';
import { type Sign, SignMark } from './marks.js';

export type Tone = 'good' | 'warn' | 'bad';

/** "note" is for what is merely good to know. Only `bad` interrupts a screen reader. */
export function Notice({ tone, children }: { tone: Tone | 'note'; children: ComponentChildren }) {
  return (
    <div class={`notice ${tone}`} role={tone === 'bad' ? 'alert' : 'status'}>
      <SignMark sign={tone} />
      <div>{children}</div>
    </div>
  );
}

export function Tag({ tone, children }: { tone?: Sign | undefined; children: ComponentChildren }) {
  return (
    <span class={tone === undefined ? 'tag' : `tag ${tone}`}>
      {tone !== undefined && <SignMark sign={tone} />}
      {children}
    </span>
  );
}
