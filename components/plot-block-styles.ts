import { css, type CSSResult } from 'lit';

/** A block with a chart, its words and its table. */
export const plotBlockStyles: CSSResult = css`
  :host {
    display: block;
  }

  .headline {
    margin: 2px 0;
    font-size: 1.0625rem;
  }

  .beside {
    margin: 2px 0;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .choice {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
    margin: 2px 0 8px;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .chart {
    min-height: 120px;
    margin-top: 8px;
  }

  summary {
    width: fit-content;
    min-height: 32px;
    padding-block: 4px;
    color: var(--accent);
    font-size: var(--size-small);
    cursor: pointer;
  }

  .scroll {
    max-height: 420px;
    overflow: auto;
  }

  table {
    width: 100%;
    border-collapse: collapse;
    font-size: var(--size-small);
  }

  th,
  td {
    padding: 4px 0 4px 10px;
    border-bottom: 1px solid var(--line);
    font-weight: 400;
    text-align: right;
    vertical-align: baseline;
  }

  th:first-child {
    padding-left: 0;
    text-align: left;
  }

  thead th {
    color: var(--soft);
  }

  .scroll thead th {
    position: sticky;
    top: 0;
    background: var(--sheet);
  }

  tbody th {
    color: var(--soft);
  }

  @media print {
    .choice,
    summary {
      display: none;
    }

    .scroll {
      max-height: none;
      overflow: visible;
    }

    .chart {
      break-inside: avoid;
    }
  }
`;
