import { css, type CSSResult } from 'lit';

/** A folded table of figures that scrolls in its place, and stands whole on paper. Put last in a block's styles. */
export const scrollTableStyles: CSSResult = css`
  summary {
    width: fit-content;
    color: var(--accent);
    font-size: var(--size-small);
    cursor: pointer;
  }

  .scroll {
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

  @media print {
    summary {
      display: none;
    }

    .scroll {
      max-height: none;
      overflow: visible;
    }
  }
`;
