import { css, type CSSResult } from 'lit';

/** The look of one cell: its text, its shade, its marks, and the editor that lies over it. */
export const gridCellLook: CSSResult = css`
  .animal,
  .cell {
    display: flex;
    align-items: center;
    justify-content: flex-end;
    min-width: 0;
    padding: 0 9px;
    border-right: 1px solid var(--line);
    white-space: nowrap;
  }

  /* Only what may be too wide is cut off: each edge that cuts is one more thing to draw. */
  .cut,
  .head .cell,
  .head .animal {
    overflow: hidden;
  }

  .head .cell {
    position: relative;
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
    font-weight: 600;
  }

  .group {
    color: var(--soft);
    font-size: var(--size-tiny);
  }

  .cut > .tag,
  .cut > .group {
    overflow: hidden;
    text-overflow: ellipsis;
  }

  .row .cut.start > .plain:last-child,
  .row .cut.start > .soft:last-child {
    text-align: left;
  }

  .narrow .cell {
    padding-inline: 6px;
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
    background-color: var(--sunk);
  }

  .cell {
    cursor: cell;
  }

  .row .cell:not(.stacked) {
    display: block;
    line-height: calc(var(--row) - 1px);
    text-align: right;
  }

  .row .cell.start:not(.stacked) {
    text-align: left;
  }

  .stacked.cell,
  .head .cell {
    flex-direction: column;
    align-items: flex-end;
    justify-content: center;
    line-height: 1.2;
  }

  .cell.start {
    align-items: flex-start;
  }

  .row .cell.start {
    padding-inline: 7px;
    font-size: 0.9375rem;
  }

  .cell .chip {
    padding: 1px 8px;
    border-radius: 9px;
    font-size: var(--size-tiny);
    font-weight: 500;
    line-height: 1.2;
  }

  .cut .chip {
    display: -webkit-box;
    white-space: normal;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }

  .cut > span,
  .cut > s,
  .head .cell > .label {
    max-width: 100%;
    overflow: hidden;
    text-overflow: ellipsis;
  }

  /* A word too wide for its cell, like a bound, takes a second line; one with a note below it has no room. */
  .row .cut > .plain:last-child,
  .row .cut > .soft:last-child {
    display: -webkit-box;
    overflow-wrap: anywhere;
    text-align: right;
    white-space: normal;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
  }

  .cell.past {
    font-size: var(--size-small);
  }

  .cell.worked {
    background-color: color-mix(in oklab, var(--sunk) 45%, var(--sheet));
  }

  .cell.heat {
    background-color: color-mix(in oklab, var(--heat-full) var(--heat), var(--sheet));
  }

  .cell small {
    max-width: calc(100% + 14px);
    margin-inline: -7px;
    color: var(--soft);
    font-size: 0.72rem;
    line-height: 1.15;
  }

  .cut small {
    overflow: hidden;
    text-overflow: ellipsis;
  }

  .narrow .cell small {
    max-width: 100%;
    margin: 0;
    white-space: normal;
    text-align: right;
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

  .cell > .wrong {
    overflow: visible;
    color: var(--warm);
    font-weight: 600;
    text-decoration: underline wavy 1.5px;
    text-underline-offset: 4px;
  }

  /* Over the cell's own shade, whichever that is. */
  .row [aria-selected='true'] {
    background-image: linear-gradient(
      color-mix(in srgb, var(--accent) 15%, transparent),
      color-mix(in srgb, var(--accent) 15%, transparent)
    );
  }

  /* Where it is shaded already, words would no longer be read easily: a ring there. */
  .row .heat[aria-selected='true'],
  .away .cell[aria-selected='true'] {
    background-image: none;
    box-shadow: inset 0 0 0 2px var(--accent);
  }

  /* There the system's colours replace all shades: a selected cell takes the system's own. */
  @media (forced-colors: active) {
    .row .cell[aria-selected='true'] {
      forced-color-adjust: none;
      background: Highlight;
      color: HighlightText;
    }

    .row .cell[aria-selected='true'] * {
      background-color: transparent;
      color: inherit;
    }

    .row .cell[aria-selected='true'] > .editor:focus {
      outline-color: HighlightText;
    }
  }

  /* The only cell with a place of its own: each such place is one more thing to draw. */
  [data-at] {
    position: relative;
    z-index: 1;
    overflow: visible;
  }

  .editor {
    position: absolute;
    inset: 0 auto auto 0;
    z-index: 1;
    width: calc(100% + 1px);
    height: calc(100% + 1px);
    min-height: 0;
    /* What is typed lays out nothing around it. */
    contain: strict;
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
`;
