import { css, type CSSResult } from 'lit';

/** The look of one animal's card: large type, targets for a wet thumb, the main button at its end. */
export const cardStyles: CSSResult = css`
  :host {
    display: block;
    max-width: 39rem;
    padding-inline: 12px;
  }

  .head {
    display: flex;
    gap: 12px;
    align-items: center;
    margin-top: 10px;
  }

  .head {
    scroll-margin-top: 56px;
  }

  /* Whose counts are typed stays in sight, below the links to the parts of the page. */
  @media (max-width: 43.75em) {
    .head {
      position: sticky;
      top: 0;
      z-index: 1;
      margin-inline: -12px;
      padding: 2px 12px;
      background: var(--paper);
    }
  }

  @media (max-width: 43.75em) and (min-height: 560px) {
    .head {
      top: 48px;
    }

    :host {
      --under-head: 132px;
    }
  }

  .head h2 {
    flex: 1;
    min-width: 0;
    margin: 0;
    font-size: 2rem;
    font-weight: 700;
    line-height: 1.1;
    overflow-wrap: anywhere;
  }

  .head h2 small {
    display: block;
    color: var(--soft);
    font-size: var(--size);
    font-weight: 400;
  }

  .step {
    flex: none;
    min-width: 48px;
    min-height: 48px;
    font-size: 1.25rem;
  }

  .lines {
    display: flex;
    gap: 4px;
    flex-wrap: wrap;
    align-items: center;
    margin: 0 0 8px;
  }

  .lines .quiet {
    margin-inline-start: auto;
    padding-inline: 6px;
  }

  .lines button[aria-pressed='true'] {
    border-color: var(--accent);
    background: var(--accent-soft);
    color: var(--ink);
    font-weight: 650;
  }

  .answer {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 14px;
    align-items: baseline;
    min-height: 3.2rem;
    margin: 12px 0 4px;
    padding: 10px 12px;
    border-radius: var(--radius);
    background: var(--sunk);
  }

  .answer strong {
    font-size: 1.5rem;
  }

  .answer .sure {
    min-height: 44px;
    margin: -8px -10px -8px auto;
    padding-inline: 10px;
    color: var(--accent);
    font-size: var(--size-small);
  }

  .answer p {
    margin: 0;
    overflow-wrap: anywhere;
  }

  .part-name {
    margin: 14px 0 6px;
    color: var(--soft);
    font-size: var(--size-small);
    font-weight: 600;
  }

  .fields {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 10px;
  }

  .part-field.score,
  .part-field.text,
  .part-field.choice {
    grid-column: 1 / -1;
  }

  .part-field.part {
    margin-bottom: 10px;
  }

  .part-field .field > input {
    min-height: 48px;
    font-size: 1.25rem;
  }

  /* Brought to the eye, a field must not lie under the buttons at the foot of the card. */
  .part-field :is(input, button) {
    scroll-margin-block: var(--under-head, 84px) 88px;
  }

  .part-field.count .field > input {
    min-height: 60px;
    font-size: 1.75rem;
    font-weight: 600;
    text-align: end;
  }

  .part-field.score:has(.field) {
    grid-column: auto;
  }

  .fault {
    margin: 4px 0 0;
    color: var(--warm);
    font-size: var(--size-small);
  }

  fieldset {
    margin: 0;
    padding: 0;
    border: 0;
  }

  legend {
    padding: 0;
    margin-bottom: 4px;
    color: var(--soft);
    font-size: var(--size-small);
  }

  .points {
    display: flex;
    gap: 6px;
  }

  .point {
    display: flex;
    flex: 1;
    flex-direction: column;
    align-items: center;
    justify-content: center;
    min-width: 44px;
    min-height: 52px;
    padding: 2px;
    font-size: 1.25rem;
    line-height: 1.1;
  }

  .point.all {
    font-size: var(--size);
  }

  .point small {
    color: inherit;
    font-size: 0.6875rem;
  }

  .point[aria-pressed='true'],
  .tick[aria-pressed='true'] {
    border-color: var(--accent);
    background: var(--accent);
    color: var(--on-accent);
    font-weight: 650;
  }

  .tick {
    width: 100%;
    min-height: 52px;
    margin-top: 20px;
  }

  .could-not {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 8px;
    margin: 12px 0 8px;
  }

  .could-not button,
  .onward button {
    min-height: 52px;
  }

  .status {
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 12px;
    margin: 10px 0 0;
    padding: 6px 12px;
    border: 1px dashed var(--line-strong);
    border-radius: var(--radius);
  }

  .onward {
    position: sticky;
    z-index: 2;
    bottom: 0;
    display: grid;
    grid-template-columns: auto 1fr;
    gap: 8px;
    margin: 0 -2px;
    padding: 8px 2px max(8px, env(safe-area-inset-bottom));
    background: var(--paper);
  }

  .onward p {
    grid-column: 1 / -1;
    margin: 0;
  }

  .onward .main {
    font-size: 1.125rem;
  }

  @media (max-width: 21em) {
    .part-field.count .field > input {
      font-size: 1.375rem;
    }
  }

  @media print {
    :host {
      display: none;
    }
  }
`;
