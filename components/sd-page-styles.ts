import { css, type CSSResult } from 'lit';

/** How the parts of an open notebook stand on the page, on a wide screen, a phone, and paper. */
export const pageStyles: CSSResult = css`
  :host([data-paper]) > :not(sd-paper) {
    display: none;
  }

  :host {
    display: block;
    min-height: 100dvh;
    background: var(--paper);
  }

  .top {
    border-bottom: 1px solid var(--line);
    background: var(--paper);
  }

  sd-day-bar {
    padding: 0 12px 0 20px;
  }

  .two {
    display: grid;
    grid-template-columns: minmax(0, 1fr) 24rem;
    align-items: start;
  }

  .wide {
    min-width: 0;
    padding-top: 6px;
  }

  .side {
    position: sticky;
    top: 0;
    max-height: 100dvh;
    overflow-y: auto;
    border-left: 1px solid var(--line);
    scrollbar-width: thin;
  }

  .one {
    min-width: 0;
  }

  .links {
    display: flex;
    gap: 2px;
    padding: 2px 10px;
    overflow-x: auto;
    border-bottom: 1px solid var(--line);
    scrollbar-width: none;
  }

  /* Each part of the page stays one tap away, unless a keypad leaves little of the screen. */
  @media (min-height: 560px) {
    .links {
      position: sticky;
      top: 0;
      z-index: 5;
      background: var(--paper);
    }

    .one > * {
      scroll-margin-top: 52px;
    }
  }

  .links button {
    flex: none;
    min-height: 44px;
    color: var(--accent);
    white-space: nowrap;
  }

  .first {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 10px;
    margin: 20px;
    padding: 16px 20px;
    border: 1px solid var(--line);
    border-radius: 10px;
    background: var(--sheet);
  }

  .first p {
    flex: 1 1 22em;
    margin: 0;
  }

  .first button {
    min-height: 44px;
  }

  .end {
    padding: 8px 20px 72px;
  }

  .foot {
    position: fixed;
    inset: auto 0 0;
    z-index: 5;
    display: flex;
    justify-content: center;
    padding: 0 12px calc(12px + env(safe-area-inset-bottom));
    pointer-events: none;
  }

  .message {
    display: flex;
    align-items: center;
    gap: 4px 8px;
    max-width: 44em;
    padding: 4px 4px 4px 16px;
    border-radius: 10px;
    background: var(--ink);
    color: var(--paper);
    box-shadow: var(--shadow);
    pointer-events: auto;
  }

  .message button {
    min-height: 44px;
    color: inherit;
    text-decoration: underline;
  }

  .message button:hover:not(:disabled) {
    background: color-mix(in oklab, var(--paper) 18%, transparent);
  }

  .message button.icon {
    text-decoration: none;
    font-size: 1.25rem;
  }

  .message :focus-visible {
    outline-color: currentColor;
  }

  @media (forced-colors: active) {
    .message {
      border: 2px solid CanvasText;
    }
  }

  @media (max-width: 43.75em) {
    /* Above the buttons at the foot of a card. */
    .foot {
      bottom: 68px;
    }

    sd-day-bar {
      padding-inline: 6px;
    }

    .first {
      margin: 14px;
    }
  }

  @media print {
    :host {
      min-height: 0;
    }

    .two {
      display: block;
    }

    .side {
      position: static;
      max-height: none;
      overflow: visible;
      border: 0;
    }

    .top {
      border: 0;
    }

    .links,
    .first,
    .end,
    .foot {
      display: none;
    }
  }
`;
