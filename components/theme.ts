import { css, type CSSResult } from 'lit';

/**
 * The look of every part, as shared style sheets. An element takes what it needs:
 * `static styles = [...theme, css\`…\`]`. The page itself calls {@link adoptTheme} once.
 *
 * One accent, the blue of a fountain pen; one warm tone for what a person set as "over my criteria";
 * one hue, clay, for shading figures from light to dark. Nothing is told by colour alone. Every pair
 * of text and ground named here has a contrast of 4.5 or more in both schemes (WCAG 2.2, 1.4.3).
 */
export const tokens: CSSResult = css`
  :root,
  :host {
    color-scheme: light dark;

    /* The page, a sheet lying on it, a sheet set back. */
    --paper: #f7f5ef;
    --sheet: #fffefa;
    --sunk: #efece3;
    /* Text, quieter text; thin lines, and lines that bound a control (3:1). */
    --ink: #1e2330;
    --soft: #585f6b;
    --line: #dfdbcf;
    --line-strong: #8d8a80;
    /* The accent: as text or as ground (with --on-accent on it), and as a tint behind --ink. */
    --accent: #2a4a90;
    --on-accent: #ffffff;
    --accent-soft: #e4e9f5;
    /* Over a person's criteria, faults, cautions: as text, and as a tint behind that text. */
    --warm: #8a3a12;
    --warm-soft: #faece1;
    /* The darkest shade behind a figure; --ink stands on all shades. */
    --heat-full: #d59f68;
    --shadow: 0 1px 2px rgb(40 36 24 / 12%), 0 8px 28px rgb(40 36 24 / 14%);
    --veil: rgb(40 36 24 / 32%);

    --font: 'Source Sans 3', 'Segoe UI', Roboto, 'Noto Sans', 'Open Sans', sans-serif;
    --font-code: ui-monospace, 'Cascadia Mono', 'DejaVu Sans Mono', Consolas, monospace;
    --size: 1rem;
    --size-small: 0.875rem;
    --size-tiny: 0.8125rem;
    --size-large: 1.25rem;

    --gap: 8px;
    --radius: 6px;
    /* Height of a row of the grid and of a control; more where fingers point. */
    --row: 40px;
    --control: 36px;
  }

  @media (prefers-color-scheme: dark) {
    :root,
    :host {
      --paper: #14171c;
      --sheet: #1a1e25;
      --sunk: #101317;
      --ink: #ece8dd;
      --soft: #a7adb8;
      --line: #2d333d;
      --line-strong: #6d7480;
      --accent: #a8c0f7;
      --on-accent: #121a2c;
      --accent-soft: #232e47;
      --warm: #f2b48d;
      --warm-soft: #3a2719;
      --heat-full: #855a33;
      --shadow: 0 1px 2px rgb(0 0 0 / 50%), 0 10px 30px rgb(0 0 0 / 55%);
      --veil: rgb(0 0 0 / 55%);
    }
  }

  @media (pointer: coarse) {
    :root,
    :host {
      --row: 48px;
      --control: 44px;
    }
  }

  @media print {
    :root,
    :host {
      color-scheme: light;
      --paper: #fff;
      --sheet: #fff;
      --sunk: #fff;
      --ink: #000;
      --soft: #333;
      --line: #bbb;
      --line-strong: #777;
      --accent: #000;
      --on-accent: #fff;
      --accent-soft: #fff;
      --warm: #000;
      --warm-soft: #fff;
    }
  }
`;

/** Type, boxes and the hidden attribute: the ground on which an element draws. */
export const base: CSSResult = css`
  :host {
    color: var(--ink);
    font-family: var(--font);
    font-size: var(--size);
    line-height: 1.4;
    font-variant-numeric: tabular-nums lining-nums;
  }

  :host([hidden]),
  [hidden] {
    display: none !important;
  }

  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }

  h1,
  h2,
  h3 {
    margin: 0;
    font-size: var(--size);
    font-weight: 650;
    line-height: 1.3;
  }

  p {
    margin: 0 0 var(--gap);
  }

  a {
    color: var(--accent);
  }

  code,
  .code {
    font-family: var(--font-code);
    font-size: 0.9375em;
  }

  .soft {
    color: var(--soft);
  }

  .small {
    font-size: var(--size-small);
  }

  @media (prefers-reduced-motion: reduce) {
    *,
    *::before,
    *::after {
      animation: none !important;
      transition: none !important;
    }
  }
`;

/** Where the keyboard is: the same ring on everything that takes focus. */
export const focusRing: CSSResult = css`
  :focus-visible {
    outline: 3px solid var(--accent);
    outline-offset: 1px;
    border-radius: var(--radius);
  }
`;

/** There for screen readers, not for eyes. */
export const visuallyHidden: CSSResult = css`
  .visually-hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    padding: 0;
    overflow: hidden;
    clip-path: inset(50%);
    border: 0;
    white-space: nowrap;
  }
`;

/** `button`; `.main` the one thing to do here; `.quiet` one without a border; `.icon` a square. */
export const buttons: CSSResult = css`
  button,
  .button {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: 6px;
    min-height: var(--control);
    padding: 4px 14px;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    background: var(--sheet);
    color: var(--ink);
    font: inherit;
    font-size: 0.9375rem;
    text-decoration: none;
    cursor: pointer;
    touch-action: manipulation;
  }

  button:hover:not(:disabled),
  .button:hover {
    border-color: var(--accent);
    background: var(--accent-soft);
  }

  button:disabled {
    border-color: var(--line);
    color: var(--soft);
    cursor: default;
  }

  button[aria-pressed='true'],
  button[aria-expanded='true']:not(.quiet) {
    border-color: var(--accent);
    background: var(--accent-soft);
    color: var(--accent);
  }

  button.main {
    border-color: var(--accent);
    background: var(--accent);
    color: var(--on-accent);
    font-weight: 600;
  }

  button.main:hover:not(:disabled) {
    background: color-mix(in oklab, var(--accent) 86%, var(--ink));
  }

  button.quiet {
    padding-inline: 10px;
    border-color: transparent;
    background: none;
  }

  button.quiet:hover:not(:disabled) {
    background: var(--accent-soft);
  }

  button.icon {
    min-width: var(--control);
    padding: 4px;
  }
`;

/** Inputs with a label above: `<label class="field">Words <input /></label>`, `.hint`, `.fault`. */
export const fields: CSSResult = css`
  input,
  select,
  textarea {
    min-height: var(--control);
    padding: 4px 10px;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    background: var(--sheet);
    color: var(--ink);
    font: inherit;
    font-variant-numeric: inherit;
  }

  input::placeholder,
  textarea::placeholder {
    color: var(--soft);
    opacity: 1;
  }

  input[type='checkbox'],
  input[type='radio'] {
    width: 1.15em;
    height: 1.15em;
    min-height: 0;
    margin: 0 6px 0 0;
    padding: 0;
    accent-color: var(--accent);
    vertical-align: -0.2em;
  }

  input[aria-invalid='true'],
  textarea[aria-invalid='true'] {
    border-color: var(--warm);
  }

  textarea {
    display: block;
    width: 100%;
    min-height: 5em;
    resize: vertical;
  }

  /* As wide as their place, never wider; any class of an element's own says otherwise. */
  :where(.field) > :where(input, select, textarea) {
    width: 100%;
    min-width: 0;
  }

  .field {
    display: grid;
    min-width: 0;
    gap: 4px;
    font-size: var(--size-small);
    color: var(--soft);
  }

  .field > input,
  .field > select,
  .field > textarea {
    font-size: var(--size);
  }

  .hint {
    font-size: var(--size-tiny);
    color: var(--soft);
  }

  .fault {
    color: var(--warm);
  }
`;

/** A word in a frame: plain, `.over` for over the criteria, `.open` for not enough known. */
export const chips: CSSResult = css`
  .chip {
    display: inline-block;
    max-width: 100%;
    padding: 1px 9px;
    overflow: hidden;
    border: 1px solid var(--line-strong);
    border-radius: 99px;
    font-size: var(--size-small);
    line-height: 1.45;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .chip.over {
    border-color: var(--warm);
    background: var(--warm-soft);
    color: var(--warm);
    font-weight: 600;
  }

  .chip.open {
    border-style: dashed;
  }
`;

/** A native `<dialog>` as a sheet on the page; a small one for menus is `.menu` with `role` items. */
export const sheets: CSSResult = css`
  dialog {
    max-width: min(560px, calc(100vw - 24px));
    max-height: calc(100dvh - 24px);
    padding: 20px;
    border: 1px solid var(--line);
    border-radius: 10px;
    background: var(--sheet);
    color: var(--ink);
    box-shadow: var(--shadow);
  }

  dialog::backdrop {
    background: var(--veil);
  }

  dialog .actions,
  .actions {
    display: flex;
    flex-wrap: wrap;
    justify-content: flex-end;
    gap: var(--gap);
    margin-top: 16px;
  }

  .menu {
    display: grid;
    min-width: 10em;
    max-height: min(60vh, 420px);
    padding: 4px;
    overflow: auto;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    background: var(--sheet);
    color: var(--ink);
    box-shadow: var(--shadow);
    text-align: left;
  }

  .menu [role='option'],
  .menu [role='menuitem'] {
    display: flex;
    align-items: center;
    justify-content: flex-start;
    gap: 8px;
    min-height: var(--control);
    padding: 4px 10px;
    border: 0;
    border-radius: 4px;
    background: none;
    font: inherit;
    cursor: pointer;
  }

  .menu [aria-selected='true'],
  .menu [role='menuitem']:hover,
  .menu [role='menuitem']:focus-visible,
  .menu [role='option']:hover {
    background: var(--accent-soft);
    color: var(--ink);
  }

  .menu hr {
    width: 100%;
    margin: 4px 0;
    border: 0;
    border-top: 1px solid var(--line);
  }
`;

/** All of it, in the order in which it is to be read. */
export const theme: readonly CSSResult[] = [
  tokens,
  base,
  visuallyHidden,
  buttons,
  fields,
  chips,
  sheets,
  focusRing,
];

/** Puts tokens and page ground on the document itself; the composition root calls it once. */
export function adoptTheme(page: Document): void {
  const ground = css`
    html {
      background: var(--paper);
      color: var(--ink);
      font-family: var(--font);
    }

    body {
      margin: 0;
    }
  `;
  const sheetsOf = [tokens, ground].flatMap((result) => result.styleSheet ?? []);
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, ...sheetsOf];
}
