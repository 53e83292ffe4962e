// Ways to set facts on a page: a card, a list of terms, steps of a path. Classes only, no style.
import type { ComponentChildren } from 'preact';
import { SignMark } from './marks.js';

/** A part of the page with its own heading (h2). */
export function Card({ title, children }: { title?: string | undefined; children: ComponentChildren }) {
  return (
    <section class="card">
      {title !== undefined && <h2>{title}</h2>}
      {children}
    </section>
  );
}

export interface Fact {
  term: string;
  detail: ComponentChildren;
}

export function Facts({ items }: { items: Fact[] }) {
  return (
    <dl class="facts">
      {items.map(({ term, detail }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{detail}</dd>
        </div>
      ))}
    </dl>
  );
}

export interface Step {
  label: string;
  state: 'done' | 'now' | 'ahead';
  detail?: ComponentChildren;
}

/** Where on a path one stands; the state is told by a mark, by words for screen readers, and by weight. */
export function Steps({ label, steps }: { label: string; steps: Step[] }) {
  return (
    <ol class="steps" aria-label={label}>
      {steps.map((step) => (
        <li key={step.label} class={step.state} aria-current={step.state === 'now' ? 'step' : undefined}>
          <span class="knot">{step.state === 'done' && <SignMark sign="good" />}</span>
          <div>
            <p class="step-label">
              {step.label}
              {step.state === 'done' && <span class="unseen"> (done)</span>}
            </p>
            {step.detail !== undefined && <p class="small">{step.detail}</p>}
          </div>
        </li>
      ))}
    </ol>
  );
}
