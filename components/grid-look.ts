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
    scroll-padding: 0;
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

  .day:not(.open) {
    overflow: hidden;
  }

  .day button {
    min-height: 0;
    height: 100%;
    border-radius: 0;
    border: 0;
  }

  .day .name {
    flex: 1;
    justify-content: flex-start;
    min-width: 0;
    padding: 0 0 0 10px;
    overflow: hidden;
    font-weight: 650;
    white-space: nowrap;
  }

  .day .fold {
    flex: none;
    width: 24px;
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
    position: sticky;
    left: var(--animal);
    flex: 0 1 auto;
    color: var(--accent);
    cursor: default;
  }

  .day.open .name:hover {
    background: none;
  }

  .day.open .fold {
    margin-left: auto;
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
  }

  .row {
    position: absolute;
    display: grid;
    grid-template-columns: var(--columns);
    width: var(--all);
    height: var(--row);
    contain: layout style;
  }

  .animal,
  .cell {
    position: relative;
    display: flex;
    align-items: center;
    justify-content: flex-end;
    min-width: 0;
    padding: 0 9px;
    overflow: hidden;
    border-right: 1px solid var(--line);
    white-space: nowrap;
  }

  .row .cell,
  .row .animal {
    border-bottom: 1px solid var(--line);
  }

  .animal {
    position: sticky;
    left: 0;
    z-index: 2;
    justify-content: space-between;
    gap: 8px;
    border-right-color: var(--line-strong);
    background: var(--sheet);
    cursor: pointer;
  }

  .tag {
    overflow: hidden;
    font-weight: 600;
    text-overflow: ellipsis;
  }

  .group {
    overflow: hidden;
    color: var(--soft);
    font-size: var(--size-tiny);
    text-overflow: ellipsis;
  }

  .narrow .row .animal {
    flex-direction: column;
    align-items: flex-start;
    justify-content: center;
    gap: 0;
    line-height: 1.2;
  }

  .away .animal,
  .away .cell {
    background: var(--sunk);
  }

  .cell {
    flex-direction: column;
    align-items: flex-end;
    justify-content: center;
    line-height: 1.2;
    cursor: cell;
  }

  .cell.start {
    align-items: flex-start;
  }

  .cell .chip {
    display: -webkit-box;
    padding: 1px 8px;
    border-radius: 9px;
    font-size: var(--size-tiny);
    font-weight: 500;
    line-height: 1.2;
    white-space: normal;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }

  .cell > span,
  .cell > s {
    max-width: 100%;
    overflow: hidden;
    text-overflow: ellipsis;
  }

  .cell.past {
    font-size: var(--size-small);
  }

  .cell.worked {
    background: color-mix(in oklab, var(--sunk) 45%, var(--sheet));
  }

  .cell.heat {
    background: color-mix(in oklab, var(--heat-full) var(--heat), var(--sheet));
  }

  .cell small {
    max-width: 100%;
    overflow: hidden;
    color: var(--soft);
    font-size: 0.72rem;
    line-height: 1.15;
    text-overflow: ellipsis;
  }

  .cell.heat small {
    color: var(--ink);
  }

  .head .cell small {
    color: var(--soft);
  }

  s {
    color: var(--soft);
    text-decoration-thickness: 2px;
  }

  .wrong {
    color: var(--warm);
    font-weight: 600;
    text-decoration: underline wavy 1.5px;
    text-underline-offset: 4px;
  }

  [aria-selected='true'] {
    background-image: linear-gradient(
      color-mix(in srgb, var(--accent) 15%, transparent),
      color-mix(in srgb, var(--accent) 15%, transparent)
    );
  }

  [data-at] {
    z-index: 1;
    overflow: visible;
  }

  .editor {
    position: absolute;
    inset: 0 -1px -1px 0;
    z-index: 1;
    width: auto;
    min-height: 0;
    padding: 0 7px;
    border: 0;
    border-radius: 0;
    outline: 2px solid var(--line-strong);
    outline-offset: -2px;
    background: none;
    color: var(--ink);
    caret-color: transparent;
    font-size: var(--size-large);
    font-weight: 600;
    text-align: right;
    pointer-events: none;
  }

  .editor:focus {
    outline: 3px solid var(--accent);
    outline-offset: -3px;
    border-radius: 0;
  }

  .start > .editor {
    text-align: left;
  }

  [data-editing] > .editor {
    background: var(--sheet);
    caret-color: var(--accent);
    pointer-events: auto;
  }

  [data-editing].start > .editor {
    min-width: 220px;
    font-size: var(--size);
    font-weight: 400;
  }

  .naming .body .cell,
  .naming .head .cell {
    cursor: copy;
  }

  .foot {
    display: flex;
    flex: none;
    flex-wrap: wrap;
    justify-content: space-between;
    gap: 2px 16px;
    min-height: 1.9em;
    padding: 6px 2px 0;
    font-size: var(--size-small);
    color: var(--soft);
  }

  .foot p {
    margin: 0;
  }

  .foot .status {
    color: var(--ink);
  }

  .empty {
    padding: 32px 20px;
    color: var(--soft);
  }

  .choices {
    position: absolute;
    z-index: 6;
  }

  @media print {
    .scroller {
      overflow: visible;
      border: 0;
    }
  }
`;
