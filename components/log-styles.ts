import { css, type CSSResult } from 'lit';

/** The treatment log, its lines, and what follows them. */
export const logStyles: CSSResult = css`
  :host {
    display: block;
  }

  p {
    margin: 0 0 6px;
  }

  h3 {
    margin: 14px 0 4px;
  }

  ul {
    margin: 0 0 8px;
    padding: 0;
    list-style: none;
  }

  li {
    padding: 4px 0;
    border-top: 1px solid var(--line);
    break-inside: avoid;
  }

  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: end;
    margin: 6px 0;
  }

  .tools .field {
    flex: 1 1 12em;
  }

  .line {
    display: grid;
    grid-template-columns: minmax(5em, 7em) minmax(6em, 9em) minmax(0, 1fr) auto;
    gap: 0 10px;
    align-items: baseline;
  }

  .tag {
    justify-content: flex-start;
    min-height: 36px;
    margin-left: -10px;
    font-weight: 600;
    overflow-wrap: anywhere;
  }

  .clear {
    font-size: var(--size-small);
  }

  .note {
    margin: 0;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .change {
    padding-inline: 10px;
    color: var(--accent);
    font-size: var(--size-small);
  }

  .round {
    margin-top: 12px;
    font-size: var(--size);
  }

  .cautions {
    margin-top: 12px;
    color: var(--soft);
    font-size: var(--size-tiny);
  }

  form {
    padding: 10px 12px 12px;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    background: var(--paper);
  }

  @media (max-width: 37.5em) {
    .line {
      grid-template-columns: minmax(0, 1fr) auto auto;
    }

    .line .clear {
      grid-column: 1 / -1;
      grid-row: 2;
    }
  }

  @media (pointer: coarse) {
    .tag,
    .change {
      min-height: 44px;
    }
  }

  @media print {
    .tools,
    .change,
    form,
    .write {
      display: none;
    }
  }
`;
