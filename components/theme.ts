import { css, type CSSResult } from 'lit';
import { buttons, chips, fields, sheets } from './theme-controls.ts';

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
