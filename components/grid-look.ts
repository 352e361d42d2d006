import { css, type CSSResult } from 'lit';

/**
 * The look of the grid. Columns stand in the tracks of `--columns`, rows in places of their own in the
 * body, so that drawing one row again moves no other; `--row` is set by the grid, so that it and the
 * reckoning of what is in sight always agree.
 */
export const gridLook: CSSResult = css`
  :host {
    display: flex;
    flex-direction: column;
    min-width: 0;
    min-height: 240px;
    background: var(--paper);
  }

  .scroller {
    position: relative;
    flex: 0 1 auto;
    min-height: 0;
    overflow: auto;
    overscroll-behavior: contain;
    border: 1px solid var(--line);
    border-radius: var(--radius);
    background: var(--sheet);
    /* What the browser brings in sight by itself does not end below the headings. */
    scroll-padding: calc(var(--band) + var(--head)) 0 0 var(--animal);
  }

  .band {
    position: sticky;
    top: 0;
    z-index: 4;
    width: var(--all);
    height: var(--band);
    background: var(--paper);
    border-bottom: 1px solid var(--line);
  }

  .corner {
    position: sticky;
    left: 0;
    z-index: 2;
    display: flex;
    align-items: center;
    width: var(--animal);
    height: 100%;
    padding: 0 10px;
    overflow: hidden;
    border-right: 1px solid var(--line);
    background: var(--paper);
    font-weight: 650;
    white-space: nowrap;
  }

  .day {
    position: absolute;
    top: 0;
    display: flex;
    height: calc(var(--band) - 1px);
    border-right: 1px solid var(--line);
  }

  /* Clipped and not hidden: what hides scrolls too, and its name would stay with it and not in sight. */
  .day:not(.open) {
    overflow: clip;
  }

  .day button {
    min-height: 0;
    height: 100%;
    border-radius: 0;
    border: 0;
  }

  .day .name {
    position: sticky;
    left: var(--animal);
    flex: 0 1 auto;
    justify-content: flex-start;
    min-width: 0;
    padding: 0 0 0 8px;
    overflow: hidden;
    font-weight: 650;
    white-space: nowrap;
  }

  .day .fold {
    flex: none;
    width: 24px;
    margin-left: auto;
    min-width: 0;
    padding: 0;
    color: var(--soft);
    font-size: 1.1rem;
  }

  .day button:focus-visible {
    outline-offset: -3px;
  }

  .day.open {
    background: var(--accent-soft);
    color: var(--accent);
  }

  .day.open .name {
    color: var(--accent);
    cursor: default;
  }

  .day.open .name:hover {
    background: none;
  }

  .is-open {
    font-weight: 400;
  }

  .grid {
    width: var(--all);
  }

  .head {
    position: sticky;
    top: var(--band);
    z-index: 3;
    display: grid;
    grid-template-columns: var(--columns);
    height: var(--head);
    background: var(--paper);
    border-bottom: 1px solid var(--line-strong);
    color: var(--soft);
    font-size: var(--size-small);
    line-height: 1.15;
  }

  .head .cell {
    cursor: default;
    text-align: right;
    white-space: normal;
  }

  .head .cell.start {
    text-align: left;
  }

  .head .label {
    color: var(--ink);
  }

  .head .unit {
    overflow: hidden;
    max-width: 100%;
    font-size: 0.75rem;
    line-height: 1.3;
    text-overflow: ellipsis;
    white-space: nowrap;
  }

  .head .animal {
    background: var(--paper);
    color: var(--ink);
    font-size: var(--size-small);
  }

  .sorted {
    position: absolute;
    top: 2px;
    left: 4px;
    color: var(--accent);
  }

  .grip {
    position: absolute;
    inset: 0 -4px 0 auto;
    z-index: 1;
    width: 9px;
    cursor: col-resize;
    touch-action: none;
  }

  .grip:hover {
    background: linear-gradient(var(--accent), var(--accent)) center / 2px 100% no-repeat;
  }

  .body {
    position: relative;
    height: var(--rows);
    contain: size layout style;
  }

  .row {
    position: absolute;
    display: grid;
    grid-template-columns: var(--columns);
    width: var(--all);
    height: var(--row);
    contain: size layout style;
  }

  .naming .body .cell,
  .naming .head .cell {
    cursor: copy;
  }

  /* Always with room for two lines of what is said, so that no sentence moves the rows above it. */
  .foot {
    display: grid;
    flex: none;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 0 16px;
    height: calc(2 * 1.4em + 6px);
    padding: 6px 2px 0;
    overflow: hidden;
    font-size: var(--size-small);
    color: var(--soft);
  }

  .foot p {
    margin: 0;
  }

  .foot .status {
    display: -webkit-box;
    align-self: start;
    overflow: hidden;
    color: var(--ink);
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }

  @media (max-width: 560px) {
    .foot {
      grid-template: calc(2 * 1.4em) 1.4em / minmax(0, 1fr);
      height: calc(3 * 1.4em + 6px);
    }
  }

  .empty {
    padding: 32px 20px;
    color: var(--soft);
  }

  .menu[popover] {
    position: fixed;
    inset: auto;
    margin: 0;
    max-width: calc(100vw - 16px);
  }

  .menu[popover]:not(:popover-open) {
    display: none;
  }

  @media print {
    .scroller {
      overflow: visible;
      border: 0;
    }
  }
`;
