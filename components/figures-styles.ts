import { css, type CSSResult } from 'lit';

/** The table of figures, its sentences and its foot. */
export const figuresStyles: CSSResult = css`
  :host {
    display: block;
  }

  .scroll {
    overflow-x: auto;
  }

  table {
    width: 100%;
    border-collapse: collapse;
  }

  th,
  td {
    padding: 5px 0 5px 10px;
    border-top: 1px solid var(--line);
    font-weight: 400;
    text-align: right;
    vertical-align: baseline;
  }

  thead th {
    border-top: 0;
    font-size: var(--size-small);
    color: var(--soft);
  }

  th:first-child {
    padding-left: 0;
    color: var(--soft);
    text-align: left;
  }

  .all {
    color: var(--ink);
    font-weight: 650;
  }

  td {
    white-space: nowrap;
  }

  .unit {
    font-size: var(--size-tiny);
  }

  td small,
  th small {
    display: block;
    font-size: var(--size-tiny);
    font-weight: 400;
    color: var(--soft);
    white-space: normal;
    overflow-wrap: anywhere;
  }

  button.quiet.figure {
    display: inline-block;
    min-height: 32px;
    margin-block: -4px;
    padding: 2px 0;
    border: 0;
    font: inherit;
    font-variant-numeric: inherit;
  }

  @media (pointer: coarse) {
    button.quiet.figure {
      min-height: 44px;
    }
  }

  .empty {
    margin: 2px 0 8px;
  }

  .faults {
    margin: 8px 0 0;
    padding-left: 1.2em;
    font-size: var(--size-small);
  }

  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 4px;
    align-items: center;
    justify-content: space-between;
    margin: 4px -10px 0;
  }

  .add {
    min-height: 44px;
    color: var(--accent);
  }

  .name {
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 2px;
  }

  thead .name {
    justify-content: flex-end;
  }

  sd-menu {
    margin-block: -6px;
  }

  @media print {
    .add,
    sd-menu {
      display: none;
    }
  }
`;
