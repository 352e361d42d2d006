import { css, type CSSResult } from 'lit';

/** A round of doses: what is given, to whom, and what to ask first. */
export const doseRoundStyles: CSSResult = css`
  :host {
    display: block;
    margin-top: 14px;
    padding-top: 8px;
    border-top: 1px solid var(--line);
  }

  h3 {
    margin-bottom: 4px;
  }

  p {
    margin: 0 0 6px;
  }

  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(9em, 1fr));
    gap: 8px 10px;
    margin: 6px 0 8px;
  }

  .fields .wide {
    grid-column: 1 / -1;
  }

  .fields .field > input,
  .fields .field > select {
    width: 100%;
    min-width: 0;
  }

  .tick {
    display: flex;
    gap: 2px;
    align-items: center;
    min-height: 36px;
    font-size: var(--size-small);
    cursor: pointer;
  }

  .tick input {
    flex: none;
  }

  ul.doses {
    margin: 4px 0 8px;
    padding: 0;
    list-style: none;
  }

  ul.doses li {
    padding: 4px 0 6px;
    border-top: 1px solid var(--line);
    break-inside: avoid;
  }

  .line {
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
    align-items: center;
  }

  .line b {
    min-width: 4em;
    overflow-wrap: anywhere;
  }

  .line .soft {
    flex: 1;
    font-size: var(--size-small);
  }

  .line input {
    width: 5em;
    text-align: right;
  }

  .also {
    margin: 1px 0 0;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .also.stop {
    color: var(--warm);
  }

  .asks {
    margin: 8px 0;
    padding: 8px 12px;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    font-size: var(--size-small);
  }

  .asks ul {
    margin: 2px 0 4px;
    padding-left: 1.1em;
  }

  .total {
    margin: 8px 0;
    padding: 8px 12px;
    border-radius: var(--radius);
    background: var(--accent-soft);
  }

  .cautions {
    margin-top: 8px;
    color: var(--soft);
    font-size: var(--size-tiny);
  }

  .said {
    margin-top: 10px;
    padding: 8px 12px;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    font-size: var(--size-small);
  }

  .paper {
    display: none;
  }

  @media (pointer: coarse) {
    .tick {
      min-height: 44px;
    }
  }

  @media print {
    .paper {
      display: block;
    }

    .fields,
    .tick,
    .actions {
      display: none;
    }

    .line input {
      border: 0;
    }
  }
`;
