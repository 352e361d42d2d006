import { css, type CSSResult } from 'lit';

/** How the formula line and its panel of names look. */
export const formulaFieldStyles: CSSResult = css`
  :host {
    display: block;
    min-width: 0;
  }

  .label {
    display: block;
    margin-bottom: 4px;
    color: var(--soft);
    font-size: var(--size-small);
  }

  input {
    width: 100%;
    font-family: var(--font-code);
    font-size: 0.9375rem;
  }

  .outcome {
    display: grid;
    gap: 2px;
    font-size: var(--size-small);
  }

  /* The room of an answer is kept, so that nothing moves when it comes. */
  .answered {
    min-height: calc(4px + 1lh);
  }

  .outcome > :first-child {
    margin-top: 4px;
  }

  .marked {
    overflow-x: auto;
    color: var(--soft);
    white-space: pre;
  }

  mark {
    background: var(--warm-soft);
    color: var(--warm);
    font-weight: 700;
    text-decoration: underline wavy;
    text-underline-offset: 3px;
  }

  .panel {
    position: fixed;
    inset: auto;
    margin: 0;
    padding: 0;
    overflow: hidden;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    background: var(--sheet);
    color: var(--ink);
    box-shadow: var(--shadow);
  }

  .panel:popover-open {
    display: flex;
    flex-direction: column;
  }

  .hint-line {
    display: flex;
    flex-wrap: wrap;
    gap: 0 12px;
    padding: 7px 12px;
    font-size: var(--size-small);
  }

  .hint-line b {
    color: var(--accent);
    text-decoration: underline;
    text-underline-offset: 3px;
  }

  .unit {
    color: var(--soft);
  }

  .names.menu {
    min-height: 0;
    max-height: none;
    border: 0;
    border-radius: 0;
    box-shadow: none;
  }

  .names [role='option'] {
    display: grid;
    gap: 0;
    align-content: center;
    padding-block: 5px;
    line-height: 1.3;
  }

  .help {
    color: var(--soft);
    font-size: var(--size-tiny);
  }

  .names [aria-selected='true'] .help {
    color: inherit;
  }
`;
