import { tradeFunction } from '../function-names.ts';
import { CUP_CARDS } from './cup-cards.ts';
import type { FullHelpCard, HelpCard } from './help-card.ts';
import { HERD_CARDS } from './herd-cards.ts';
import { REDUCTION_CARDS } from './reduction-cards.ts';
import { TREATMENT_CARDS } from './treatment-cards.ts';

/** A card for every trade function, in the order in which help shows them. */
export const HELP_CARDS: readonly FullHelpCard[] = [
  ...CUP_CARDS,
  ...HERD_CARDS,
  ...REDUCTION_CARDS,
  ...TREATMENT_CARDS,
].map(withArguments);

/** The card of a trade function, by its name in capitals. */
export function helpCard(name: string): FullHelpCard | undefined {
  return HELP_CARDS.find((card) => card.name === name);
}

function withArguments(card: HelpCard): FullHelpCard {
  const trade = tradeFunction(card.name);
  if (!trade) throw new Error(`A help card for ${card.name}, which is no function`);
  return { ...card, params: trade.params, isRepeated: trade.rest !== undefined };
}
