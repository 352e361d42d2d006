import { css, type CSSResult } from 'lit';

/** The list of all animals and what can be done to those ticked. */
export const animalListStyles: CSSResult = css`
  :host {
    display: block;
  }

  .find {
    width: 100%;
    min-height: 44px;
  }

  ul {
    max-height: 44vh;
    margin: 10px 0;
    padding: 0;
    overflow: auto;
    border-block: 1px solid var(--line);
    list-style: none;
  }

  li label {
    display: grid;
    grid-template-columns: auto minmax(6.5em, auto) minmax(0, 1fr);
    gap: 8px;
    align-items: center;
    min-height: 44px;
    padding: 2px 6px;
    border-top: 1px solid var(--line);
    cursor: pointer;
  }

  li:first-child label {
    border-top: 0;
  }

  li label:hover {
    background: var(--accent-soft);
  }

  b {
    font-weight: 600;
    overflow-wrap: anywhere;
  }

  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }

  .tools button {
    min-height: 44px;
  }

  .doing {
    display: grid;
    gap: 12px;
    margin-top: 14px;
    padding: 14px;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    background: var(--paper);
  }

  .all {
    display: flex;
    align-items: center;
    min-height: 44px;
    padding-left: 6px;
  }

  p {
    margin: 6px 0;
  }
`;
