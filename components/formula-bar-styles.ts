import { css, type CSSResult } from 'lit';

/** How the line above the counts looks, with a formula being changed in it or not. */
export const formulaBarStyles: CSSResult = css`
  :host {
    display: block;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    background: var(--sheet);
  }

  .line {
    display: grid;
    grid-template-columns: auto minmax(11.5em, 1fr) fit-content(60%);
    align-items: center;
    gap: 4px 16px;
    min-height: 44px;
    padding: 4px 12px;
  }

  .where {
    white-space: nowrap;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .where b {
    color: var(--ink);
    font-size: var(--size);
  }

  .what {
    min-width: 0;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .formula {
    justify-content: flex-start;
    max-width: 100%;
    min-height: 34px;
    overflow: hidden;
    font-family: var(--font-code);
    font-size: 0.875rem;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  /* Two lines of it fit in the height of the formula beside it. */
  .why {
    display: -webkit-box;
    overflow: hidden;
    color: var(--soft);
    font-size: var(--size-small);
    line-height: 1.2;
    text-align: right;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }

  .why.fault {
    display: block;
    color: var(--warm);
  }

  .why span:not(:last-child)::after {
    content: ' · ';
  }

  .sure {
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 12px;
    min-height: 32px;
    padding: 0 2px 2px 12px;
  }

  .sure sd-sureness {
    flex: 1;
  }

  .lanes {
    display: flex;
    align-items: center;
    gap: 8px;
    color: var(--soft);
    font-size: var(--size-small);
    white-space: nowrap;
  }

  .lanes select {
    min-height: 30px;
    padding-block: 0;
  }

  .from {
    min-height: 30px;
    color: var(--accent);
    font-size: var(--size-small);
    white-space: nowrap;
  }

  @media (pointer: coarse) {
    .from {
      min-height: 44px;
    }
  }

  .edit {
    display: flex;
    flex-wrap: wrap;
    align-items: start;
    gap: 8px;
    padding: 8px 12px;
  }

  .edit sd-formula-field {
    flex: 1 1 260px;
  }

  .edit p {
    flex-basis: 100%;
    margin: 0;
  }

  @media (max-width: 45em) {
    .line {
      grid-template-columns: minmax(0, 1fr) auto;
      min-height: 74px;
      align-content: start;
    }

    .why {
      grid-column: 1 / -1;
      text-align: left;
      -webkit-line-clamp: 3;
    }
  }

  @media print {
    :host {
      display: none;
    }
  }
`;
