import { css, type CSSResult } from 'lit';

/** What forms share, in dialogs and on the page: fields in rows that wrap, none wider than its place. */
export const formStyles: CSSResult = css`
  :host {
    display: block;
  }

  form,
  .form {
    display: grid;
    gap: 14px;
  }

  .row {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(9.5em, 1fr));
    gap: 12px;
    align-items: start;
  }

  .field {
    min-width: 0;
    align-content: start;
  }

  .field > input,
  .field > select {
    width: 100%;
    min-width: 0;
  }

  .field > input,
  .field > select,
  button {
    min-height: 44px;
  }

  p {
    margin: 0;
  }

  .one {
    display: grid;
    gap: 10px;
    padding: 14px 0;
    border-top: 1px solid var(--line);
  }

  .one:first-of-type {
    border-top: 0;
    padding-top: 0;
  }

  .head {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 10px;
  }

  .tick {
    display: flex;
    align-items: center;
    min-height: 44px;
    cursor: pointer;
  }

  .sum {
    padding: 10px 14px;
    border-radius: var(--radius);
    background: var(--accent-soft);
    font-size: 1.0625rem;
  }
`;
