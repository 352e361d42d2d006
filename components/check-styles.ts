import { css, type CSSResult } from 'lit';
import { scrollTableStyles } from './scroll-table-styles.ts';

/** The dewormer check: its choices, and one answer for each product. */
export const checkStyles: CSSResult = css`
  :host {
    display: block;
  }

  p {
    margin: 0 0 6px;
  }

  h3 {
    margin: 16px 0 4px;
    font-size: 1.0625rem;
  }

  h4 {
    margin: 12px 0 2px;
    font-size: var(--size-small);
    font-weight: 650;
  }

  .choices {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(12em, 1fr));
    gap: 10px 14px;
    align-items: start;
  }

  .choices select {
    width: 100%;
  }

  fieldset {
    min-width: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }

  legend {
    padding: 0;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .tick {
    display: flex;
    align-items: center;
    min-height: 36px;
    cursor: pointer;
  }

  .answers {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 330px), 1fr));
    gap: 6px 28px;
  }

  .answer {
    min-width: 0;
  }

  .verdict {
    margin: 6px 0;
    font-size: 1.125rem;
    font-weight: 650;
  }

  .figure {
    font-size: 1.0625rem;
  }

  .zone {
    display: block;
    width: 100%;
    max-width: 640px;
    margin: 6px 0;
    overflow: visible;
  }

  .zone text {
    fill: var(--soft);
    font-family: var(--font);
    font-size: 14px;
  }

  .grey {
    fill: var(--line);
  }

  .edge,
  .axis {
    stroke: var(--line-strong);
    stroke-width: 1.5;
  }

  .span,
  .cap {
    fill: none;
    stroke: var(--ink);
    stroke-width: 3;
  }

  .dot {
    fill: var(--accent);
    stroke: var(--sheet);
    stroke-width: 2;
  }

  .asks {
    margin: 8px 0;
    padding: 8px 12px;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
  }

  .asks ul {
    margin: 2px 0;
    padding-left: 1.2em;
  }

  blockquote {
    margin: 6px 0;
    padding: 10px 14px;
    border-left: 3px solid var(--accent);
    background: var(--accent-soft);
  }

  summary {
    min-height: 36px;
    padding-block: 6px;
  }

  .scroll {
    max-height: 320px;
  }

  .limits {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(11em, 1fr));
    gap: 10px;
    align-items: start;
    margin: 6px 0;
  }

  .limits input,
  .limits select {
    width: 100%;
    min-width: 0;
  }

  @media (max-width: 37.5em) {
    .zone text {
      font-size: 23px;
    }
  }

  @media (pointer: coarse) {
    .tick,
    summary {
      min-height: 44px;
    }
  }

  @media print {
    .choices,
    .limits,
    button,
    .own {
      display: none;
    }

    .answer,
    blockquote {
      break-inside: avoid;
    }
  }

  ${scrollTableStyles}
`;
