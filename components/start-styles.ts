import { css, type CSSResult } from 'lit';

/** The look of the first page. */
export const startStyles: CSSResult = css`
  :host {
    display: block;
  }

  main {
    max-width: 940px;
    margin: 0 auto;
    padding: clamp(20px, 5vw, 56px) 20px 48px;
  }

  h1 {
    font-size: clamp(1.6rem, 4vw, 2.1rem);
    letter-spacing: -0.01em;
  }

  .lead {
    max-width: 44em;
    margin: 6px 0 28px;
    font-size: 1.0625rem;
    color: var(--soft);
  }

  .columns {
    display: grid;
    grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr);
    align-items: start;
    gap: 24px;
  }

  section {
    padding: 18px 20px 20px;
    border: 1px solid var(--line);
    border-radius: 10px;
    background: var(--sheet);
  }

  h2 {
    margin-bottom: 10px;
    font-size: 1.125rem;
  }

  ul {
    margin: 0 -10px;
    padding: 0;
    list-style: none;
  }

  li {
    display: flex;
    align-items: center;
    border-top: 1px solid var(--line);
  }

  li:first-child {
    border-top: 0;
  }

  .open {
    flex: 1;
    flex-direction: column;
    align-items: flex-start;
    gap: 0;
    min-width: 0;
    min-height: 60px;
    padding: 8px 10px;
    border: 0;
    background: none;
    text-align: left;
  }

  .open b {
    font-size: 1.0625rem;
    font-weight: 600;
    overflow-wrap: anywhere;
  }

  .deleted,
  .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: space-between;
    gap: 8px 16px;
    margin: 0 0 20px;
    padding: 8px 16px;
    border: 1px solid var(--line-strong);
    border-radius: var(--radius);
    background: var(--sheet);
  }

  .trouble {
    border-color: var(--warm);
    background: var(--warm-soft);
    color: var(--warm);
  }

  .other {
    display: flex;
    flex-wrap: wrap;
    gap: 10px;
    margin-top: 16px;
  }

  .other button,
  .other .button {
    min-height: 44px;
  }

  .button:focus-within {
    outline: 3px solid var(--accent);
    outline-offset: 1px;
  }

  summary {
    min-height: 44px;
    margin-top: 12px;
    padding: 11px 0;
    font-size: var(--size-small);
    color: var(--soft);
    cursor: pointer;
  }

  .done {
    margin: 0 0 20px;
  }

  h1:focus,
  h2:focus {
    outline: none;
  }

  .gone {
    display: grid;
    flex: 1;
    min-width: 0;
    padding: 6px 0 6px 10px;
    overflow-wrap: anywhere;
  }

  .gone b {
    font-weight: 600;
  }

  .asked {
    flex-wrap: wrap;
  }

  /* The question stands below the notebook it is about, and takes nothing of its width. */
  .asked .gone {
    flex-basis: 100%;
  }

  .question {
    display: flex;
    flex: 1 1 16em;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px;
    padding: 8px 10px;
  }

  .question p {
    flex-basis: 100%;
    margin: 0;
  }

  .question button {
    min-height: 44px;
  }

  li .quiet {
    min-height: 44px;
    color: var(--accent);
  }

  footer {
    margin-top: 28px;
    font-size: var(--size-small);
    color: var(--soft);
  }

  sd-language-choice {
    margin-top: 16px;
  }

  @media (max-width: 47.5em) {
    .columns {
      grid-template-columns: minmax(0, 1fr);
      gap: 16px;
    }

    main {
      padding-inline: 14px;
    }
  }
`;
