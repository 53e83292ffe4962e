// The frame of every page: head, letterhead with the ways through the house, one main landmark, and the
// studio's address at the same place on each. Props to markup; it knows no request and no feature.
import type { ComponentChildren, VNode } from 'preact';
import { render } from 'preact-render-to-string';
import type { FieldProblem } from '../problems.js';
import { FORM_FIELD } from '../security/forms.js';
import { ErrorSummary } from './kit/errors.js';
import { Mark } from './kit/marks.js';
import { Notice, type Tone } from './kit/notices.js';
import { DESK_SPOKEN, type Spoken, SpokenContext } from './kit/spoken.js';
import { assetUrl } from './static-files.js';

/** A whole document; `node` is a Page or any other <html> element. Text is escaped by Preact. */
export function renderDocument(node: VNode): string {
  return `<!doctype html>${render(node)}`;
}

export interface NavLink {
  href: string;
  label: string;
  current?: boolean | undefined;
}

/** How to reach the studio; stands at the foot of every page. */
export interface Help {
  address?: string[] | undefined;
  telephone?: string | undefined;
  email?: string | undefined;
}

export interface PageProps {
  /** Stands in the browser's tab and, unless `heading` says otherwise, as the page's one h1. */
  title: string;
  heading?: string | undefined;
  studioName?: string | undefined;
  homeHref?: string | undefined;
  nav?: NavLink[] | undefined;
  user?: { name: string; href: string; signOutAction: string; csrf: string } | undefined;
  notice?: { tone: Tone; text: string } | undefined;
  help?: Help | undefined;
  /** Sources to name at the foot, such as the gazetteer's. */
  credits?: { text: string; href?: string }[] | undefined;
  /** For tables and the owner's desk. */
  wide?: boolean | undefined;
  /** Shown in a summary above the heading; "Error: " then begins the title. */
  errors?: FieldProblem[] | undefined;
  /** For a page that places its own ErrorSummary: only the title is changed. */
  errorCount?: number | undefined;
  /** Pages behind a secret link or a sign-in: search engines are asked to keep away. */
  unlisted?: boolean | undefined;
  /** The language of a page that stands in several; else it is the desk's. */
  spoken?: Spoken | undefined;
  children?: ComponentChildren;
}

export function Page(props: PageProps) {
  const { title, studioName, errors = [], spoken = DESK_SPOKEN } = props;
  const { frame } = spoken.words;
  const wrong = (props.errorCount ?? errors.length) > 0;
  return (
    <html lang={spoken.language === 'en' ? 'en-GB' : spoken.language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        {props.unlisted === true && <meta name="robots" content="noindex" />}
        <title>{`${wrong ? frame.error : ''}${title}${studioName ? ` · ${studioName}` : ''}`}</title>
        <link rel="stylesheet" href={assetUrl('app.css')} />
        <link rel="icon" type="image/svg+xml" href={assetUrl('favicon.svg')} />
        <script type="module" src={assetUrl('app.js')} />
      </head>
      <body class={props.wide === true ? 'wide' : undefined}>
        <SpokenContext.Provider value={spoken}>
          <a class="skip" href="#main">
            {frame.skip}
          </a>
          <Letterhead {...props} />
          <main id="main" tabIndex={-1}>
            {props.notice && <Notice tone={props.notice.tone}>{props.notice.text}</Notice>}
            <ErrorSummary errors={errors} />
            <h1>{props.heading ?? title}</h1>
            {props.children}
          </main>
          <Foot {...props} />
        </SpokenContext.Provider>
      </body>
    </html>
  );
}

function Letterhead({ studioName, homeHref, nav = [], user, spoken = DESK_SPOKEN }: PageProps) {
  const { frame } = spoken.words;
  const name = studioName ?? 'Plateday';
  return (
    <header class="letterhead">
      <p class="studio">
        <Mark />
        {homeHref === undefined ? <span>{name}</span> : <a href={homeHref}>{name}</a>}
      </p>
      {nav.length > 0 && (
        <nav aria-label={frame.pages}>
          <ul class="ways">
            {nav.map(({ href, label, current }) => (
              <li key={href}>
                <a href={href} aria-current={current === true ? 'page' : undefined}>
                  {label}
                </a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {user && (
        <form class="user" method="post" action={user.signOutAction}>
          <input type="hidden" name={FORM_FIELD} value={user.csrf} />
          <a href={user.href}>{user.name}</a>
          <button type="submit" class="plain">
            {frame.signOut}
          </button>
        </form>
      )}
    </header>
  );
}

function Foot({ studioName, help, credits = [], spoken = DESK_SPOKEN }: PageProps) {
  const { frame } = spoken.words;
  return (
    <footer class="foot">
      {help && (
        <address class="reach">
          <strong>{frame.questions(studioName)}</strong>
          {help.telephone !== undefined && (
            <a href={`tel:${help.telephone.replace(/[^\d+]/g, '')}`}>{help.telephone}</a>
          )}
          {help.email !== undefined && <a href={`mailto:${help.email}`}>{help.email}</a>}
          {help.address && <span>{help.address.join(', ')}</span>}
        </address>
      )}
      {spoken.others.length > 0 && (
        <nav class="actions no-print" aria-label={frame.languages}>
          {spoken.others.map(({ language, name, href }) => (
            <a key={language} href={href} lang={language} hreflang={language}>
              {name}
            </a>
          ))}
        </nav>
      )}
      {frame.unchecked !== '' && <p class="small">{frame.unchecked}</p>}
      <p class="credit">
        {credits.map(({ text, href }) => (
          <span key={text}>{href === undefined ? text : <a href={href}>{text}</a>}</span>
        ))}
        <span>{frame.keptWith}</span>
      </p>
    </footer>
  );
}
