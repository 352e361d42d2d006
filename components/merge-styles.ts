import { css, type CSSResult } from 'lit';

/** The look of what two copies come to: in the dialog that merges, and in the one that settles. */
export const mergeStyles: CSSResult = css`
  p {
    max-width: 44em;
  }

  h3 {
    margin: 18px 0 6px;
  }

  h3:focus {
    outline: none;
  }

  ul {
    margin: 0 0 12px;
    padding-left: 1.3em;
  }

  ul.plain {
    padding: 0;
    list-style: none;
  }

  ul.plain > li {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: space-between;
    gap: 4px 16px;
    min-height: 44px;
    padding: 6px 0;
    border-top: 1px solid var(--line);
    overflow-wrap: anywhere;
  }

  button,
  .button {
    min-height: 44px;
  }

  .button.main {
    border-color: var(--accent);
    background: var(--accent);
    color: var(--on-accent);
    font-weight: 600;
  }

  .button.main:hover {
    background: color-mix(in oklab, var(--accent) 86%, var(--ink));
  }

  .button:focus-within {
    outline: 3px solid var(--accent);
    outline-offset: 1px;
  }

  .tick {
    display: flex;
    align-items: center;
    min-height: 44px;
    cursor: pointer;
  }

  .ahead {
    padding: 8px 12px;
    border: 1px solid var(--warm);
    border-radius: var(--radius);
    background: var(--warm-soft);
    color: var(--warm);
  }

  @media (pointer: coarse) {
    .drop {
      display: none;
    }
  }
`;
