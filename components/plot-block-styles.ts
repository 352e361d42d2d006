import { css, type CSSResult } from 'lit';
import { scrollTableStyles } from './scroll-table-styles.ts';

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
    min-height: 32px;
    padding-block: 4px;
  }

  .scroll {
    max-height: 420px;
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
    .choice {
      display: none;
    }

    .chart {
      break-inside: avoid;
    }
  }

  ${scrollTableStyles}
`;
