// A page to be read in the darkroom, where a white screen would fog plates and hands are black: pure red on
// black, no picture, no script, very large targets. Nothing typed is asked for here.
import type { ComponentChildren } from 'preact';
import { assetUrl } from './static-files.js';

interface RedPageProps {
  title: string;
  /** Where the bright pages are; the label warns of the light. */
  back: { href: string; label: string };
  children: ComponentChildren;
}

/** For lists, facts, links and forms that hold only buttons. */
export function RedPage({ title, back, children }: RedPageProps) {
  return (
    <html lang="en-GB">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="dark" />
        <meta name="theme-color" content="#000000" />
        <meta name="robots" content="noindex" />
        <title>{title}</title>
        <link rel="stylesheet" href={assetUrl('red.css')} />
        <link rel="icon" href={assetUrl('favicon-red.svg')} />
      </head>
      <body>
        <main>
          <h1>{title}</h1>
          {children}
        </main>
        <nav aria-label="Back">
          <a href={back.href}>{back.label}</a>
        </nav>
      </body>
    </html>
  );
}
