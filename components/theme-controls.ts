import { css, type CSSResult } from 'lit';

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

  button:hover:not(:disabled, [aria-disabled='true']),
  .button:hover {
    border-color: var(--accent);
    background: var(--accent-soft);
  }

  button:is(:disabled, [aria-disabled='true']) {
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

  button.main:hover:not(:disabled, [aria-disabled='true']) {
    background: color-mix(in oklab, var(--accent) 86%, var(--ink));
  }

  button.quiet {
    padding-inline: 10px;
    border-color: transparent;
    background: none;
  }

  button.quiet:hover:not(:disabled, [aria-disabled='true']) {
    background: var(--accent-soft);
  }

  button.icon {
    min-width: var(--control);
    padding: 4px;
  }

  @media (forced-colors: active) {
    button[aria-pressed='true'],
    button[aria-current] {
      forced-color-adjust: none;
      border-color: Highlight !important;
      background: Highlight !important;
      color: HighlightText !important;
    }

    button.main {
      border-width: 2px;
      font-weight: 700;
    }

    button:is(:disabled, [aria-disabled='true']) {
      border-color: GrayText;
      color: GrayText;
    }
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
    align-items: center;
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

  @media (forced-colors: active) {
    .menu [aria-selected='true'],
    .menu [role='menuitem']:focus-visible {
      forced-color-adjust: none;
      background: Highlight;
      color: HighlightText;
    }
  }

  .menu hr {
    width: 100%;
    margin: 4px 0;
    border: 0;
    border-top: 1px solid var(--line);
  }
`;
