import { css, type CSSResult } from 'lit';

/** A form of short fields, and tables wider than a phone. */
export const planStyles: CSSResult = css`
  form {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(210px, 1fr));
    gap: 10px 18px;
    align-items: start;
    margin: 8px 0;
  }

  .typed {
    display: flex;
    gap: 6px;
    align-items: center;
  }

  .typed input {
    width: 100%;
    min-width: 0;
    font-size: var(--size);
    color: var(--ink);
  }

  .field .fault,
  .field .hint {
    display: block;
  }

  .back {
    flex: none;
    color: var(--accent);
    font-size: var(--size-small);
  }

  details.more {
    margin: 4px 0;
  }

  .act {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: center;
    margin: 10px 0;
  }

  progress {
    flex: 1;
    min-width: 120px;
    max-width: 360px;
    height: 12px;
    accent-color: var(--accent);
  }

  h3 {
    margin: 18px 0 4px;
  }

  caption {
    padding: 10px 0 4px;
    font-size: var(--size-small);
    text-align: left;
  }

  small {
    display: block;
    font-size: var(--size-tiny);
    font-weight: 400;
    color: var(--soft);
  }

  .scroll {
    max-height: none;
  }

  thead th {
    position: static;
    min-width: 5em;
    background: none;
    vertical-align: bottom;
  }

  tbody td,
  tbody th {
    white-space: nowrap;
  }

  .right {
    color: var(--ink);
    font-weight: 650;
  }

  .older {
    opacity: 0.7;
  }

  @media (pointer: coarse) {
    summary {
      min-height: 44px;
    }
  }

  @media print {
    form,
    .act,
    .back {
      display: none;
    }
  }
`;
