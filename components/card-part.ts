import { html, nothing, type TemplateResult } from 'lit';
import type { Column, Notebook } from '../shared/notebook.ts';
import { cardField, type CardHand, type CardPart } from './card-fields.ts';
import { laneField } from './card-lanes.ts';

/**
 * One part of an animal's card under its name. In the cup's, `couldNot` stands right below the counts, and the
 * lanes of a grid with too many below that.
 */
export function cardPart(
  notebook: Notebook,
  day: string,
  row: string,
  { name, isCup, columns }: CardPart,
  hand: CardHand,
  couldNot: TemplateResult,
): TemplateResult {
  const fields = (some: readonly Column[]): TemplateResult | typeof nothing =>
    some.length === 0
      ? nothing
      : html`<div class="fields">
          ${some.map((column) => cardField(notebook, day, row, column, hand))}
        </div>`;
  const counts = columns.filter(({ kind }) => kind === 'count');
  const others = columns.filter(({ kind }) => kind !== 'count');
  return html`
    <h3 class="part-name">${name}</h3>
    ${
      isCup
        ? html`${fields(counts)} ${couldNot}
          ${counts.map((count) => laneField(notebook, day, row, count, hand))} ${fields(others)}`
        : fields(columns)
    }
  `;
}
