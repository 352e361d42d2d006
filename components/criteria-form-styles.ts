import { css, type CSSResult } from 'lit';

/** How the list of criteria looks, and the one being changed. */
export const criteriaFormStyles: CSSResult = css`
  .one {
    padding: 6px 0;
  }

  .words {
    flex: 1 1 14em;
    min-width: 0;
    overflow-wrap: anywhere;
  }

  .edit {
    display: grid;
    gap: 12px;
    padding: 12px;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    background: var(--paper);
  }

  fieldset {
    display: flex;
    flex-wrap: wrap;
    gap: 0 14px;
    margin: 0;
    padding: 0;
    border: 0;
  }

  legend {
    padding: 0;
    font-size: var(--size-small);
    color: var(--soft);
  }
`;
