import type { Animal, Product } from '../../shared/notebook.ts';
import { speciesOf } from './animal-kind.ts';
import { isExpired } from './expiry.ts';
import { labelBasis, labelStrengthGap } from './label-dose.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** How a product is to be given: on which day, and by which route where it is not the label's. */
export interface Giving {
  readonly date: string;
  readonly route?: string;
  /** How decimals are written in the sentences. */
  readonly mark?: DecimalMark;
}

/**
 * Why the label does not cover this animal on this day: species, route, expiry, no strength, a line and
 * a strength that contradict each other. Each is a sentence that says what to do; none means that the
 * label's dose and withdrawal hold, as far as what was typed of it goes.
 */
export function labelStops(product: Product, animal: Animal, giving: Giving): readonly string[] {
  const stops = [
    speciesStop(product, animal),
    routeStop(product, giving.route),
    expiryStop(product, giving.date),
    strengthStop(product, giving.mark),
  ];
  return stops.filter((stop) => stop !== null);
}

function speciesStop(product: Product, animal: Animal): string | null {
  const species = product.species ?? [];
  if (species.length === 0)
    return say(
      'Which species the label of {product} names is not typed yet. Tick them on the product.',
      { product: nameOf(product) },
    );
  const own = speciesOf(animal);
  if (own === undefined)
    return species.length === 2
      ? null
      : say(
          '{tag}: type whether it is a sheep or a goat, so that the label can be held against it.',
          { tag: animal.tag },
        );
  if (species.includes(own)) return null;
  const facts = { tag: animal.tag, product: nameOf(product) };
  // There are two species, so a label that names the other one names it alone.
  return own === 'goat'
    ? say(
        '{tag} is a goat and the label of {product} names sheep only: ask your vet for a dose and a withdrawal.',
        facts,
      )
    : say(
        '{tag} is a sheep and the label of {product} names goats only: ask your vet for a dose and a withdrawal.',
        facts,
      );
}

function routeStop(product: Product, route: string | undefined): string | null {
  const label = plain(product.route);
  if (label === '')
    return say(
      'The route that the label of {product} names is not typed yet. Type it on the product.',
      { product: nameOf(product) },
    );
  if (route === undefined || plain(route) === '' || plain(route) === label) return null;
  return say(
    'The label of {product} says {label}, not {route}: give it as the label says, or ask your vet.',
    { product: nameOf(product), label: product.route?.trim(), route: route.trim() },
  );
}

function expiryStop(product: Product, date: string): string | null {
  if (isExpired(product.expires, date) !== true) return null;
  return say('{product} expired ({date}): use one that is in date.', {
    product: nameOf(product),
    date: product.expires?.trim(),
  });
}

function strengthStop(product: Product, mark: DecimalMark | undefined): string | null {
  if (labelBasis(product) !== null) return labelStrengthGap(product, mark);
  return say(
    "{product} has no strength: type the label's line, mL per kg, or its strength with mg per kg.",
    { product: nameOf(product) },
  );
}

function nameOf(product: Product): string {
  return product.name ?? say('this product');
}

function plain(text: string | undefined): string {
  return (text ?? '').trim().toLowerCase().replace(/\s+/g, ' ');
}
