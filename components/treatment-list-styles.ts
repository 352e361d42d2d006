import { css, type CSSResult } from 'lit';

/** The lists of whom to treat, and what stands below them. */
export const treatmentListStyles: CSSResult = css`
  :host {
    display: block;
  }

  .counts {
    margin: 2px 0 10px;
  }

  .pale {
    margin: 0 0 10px;
    padding: 8px 12px;
    border: 1px solid var(--warm);
    border-radius: var(--radius);
    background: var(--warm-soft);
    color: var(--warm);
    font-weight: 600;
  }

  ol {
    margin: 0 0 8px;
    padding: 0;
    list-style: none;
  }

  li.animal {
    display: grid;
    grid-template-columns: 30px minmax(0, 1fr);
    padding: 3px 0 6px;
    border-top: 1px solid var(--line);
  }

  .treat {
    display: grid;
    place-items: center start;
    height: 36px;
    cursor: pointer;
  }

  .treat input {
    width: 1.3em;
    height: 1.3em;
    margin: 0;
  }

  .line {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0 4px;
  }

  .tag {
    justify-content: flex-start;
    min-height: 36px;
    margin-left: -6px;
    padding: 2px 6px;
    font-size: 1.0625rem;
    font-weight: 600;
    overflow-wrap: anywhere;
  }

  .weight {
    flex: 1;
    color: var(--soft);
    font-size: var(--size-small);
    white-space: nowrap;
  }

  .act {
    min-height: 36px;
    padding: 2px 7px;
    color: var(--accent);
    font-size: var(--size-small);
  }

  .act[aria-pressed='true'] {
    background: var(--accent-soft);
    font-weight: 600;
  }

  .why {
    margin: 0;
  }

  .also {
    margin: 1px 0 0;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .reason {
    margin-top: 4px;
  }

  .reason input {
    width: 100%;
  }

  h3 {
    margin: 14px 0 2px;
    font-size: var(--size-small);
  }

  .group {
    margin: 0 0 6px;
    font-size: var(--size-small);
    overflow-wrap: anywhere;
  }

  .below {
    margin: 2px 0 0 -7px;
  }

  .cautions {
    margin-top: 14px;
    padding-top: 8px;
    border-top: 1px solid var(--line);
    font-size: var(--size-tiny);
    color: var(--soft);
  }

  .cautions p {
    margin-bottom: 4px;
  }

  @media (pointer: coarse) {
    .tag,
    .act {
      min-height: 44px;
    }

    .treat {
      height: 44px;
    }

    li.animal {
      grid-template-columns: 38px minmax(0, 1fr);
    }

    .treat input {
      width: 1.6em;
      height: 1.6em;
    }
  }

  @media print {
    .act,
    .below {
      display: none;
    }

    li.animal {
      break-inside: avoid;
    }
  }
`;
