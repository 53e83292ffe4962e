// Buttons. Each says in words what it does; none is a picture alone.
import type { ComponentChildren } from 'preact';

interface ButtonProps {
  /** One primary button on a page. */
  kind?: 'primary' | 'quiet' | 'danger' | undefined;
  name?: string | undefined;
  value?: string | undefined;
  formaction?: string | undefined;
  children: ComponentChildren;
}

export function Button({ kind = 'primary', name, value, formaction, children }: ButtonProps) {
  return (
    <button type="submit" class={`button ${kind}`} name={name} value={value} formAction={formaction}>
      {children}
    </button>
  );
}
