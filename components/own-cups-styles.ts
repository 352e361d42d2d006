import { css, type CSSResult } from 'lit';

/** The look of the list of cups of their own. */
export const ownCupsStyles: CSSResult = css`
  :host {
    display: block;
  }

  summary {
    min-height: 44px;
    padding: 10px 12px;
    cursor: pointer;
  }

  .inside {
    display: grid;
    gap: 10px;
    padding: 0 12px 12px;
  }

  p {
    margin: 0;
  }

  ul {
    display: grid;
    gap: 10px;
    margin: 0;
    padding: 0;
    list-style: none;
  }

  li,
  form {
    display: flex;
    flex-wrap: wrap;
    align-items: end;
    gap: 8px 12px;
    padding-top: 10px;
    border-top: 1px solid var(--line);
  }

  li > b {
    align-self: center;
    min-width: 4.5em;
  }

  label {
    display: grid;
    gap: 2px;
    color: var(--soft);
    font-size: var(--size-small);
  }

  input {
    width: 6.5em;
    min-height: 44px;
  }

  input.whose {
    width: 13em;
    max-width: 100%;
  }

  button {
    min-height: 44px;
  }

  .comes,
  .fault {
    flex-basis: 100%;
    font-size: var(--size-small);
  }

  .comes {
    color: var(--soft);
  }

  @media print {
    :host {
      display: none;
    }
  }
`;
