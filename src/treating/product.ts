import type { Edit } from '../../shared/edit.ts';
import type { Notebook, Product, ProductFacts } from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { known } from '../notebook/cell.ts';
import { blocksOf, productsOf, treatmentsOf } from '../notebook/read.ts';
import { orderAtEnd, setsOf } from '../notebook/record-sets.ts';
import { productFaults } from './product-check.ts';
import { wordList } from './word-list.ts';
import { say } from '../text/say.ts';

/** What a person types of a product from its label; `null` empties a field again. */
export type TypedProduct = {
  readonly [K in keyof Omit<ProductFacts, 'order' | 'removed'>]?: ProductFacts[K] | null;
};

/** A product by its id, a removed one as well: the log still names it. */
export function productOf(notebook: Notebook, id: string): Product | undefined {
  const fields = notebook.products[id];
  return fields ? known<ProductFacts>(id, fields) : undefined;
}

/** A product's name for a sentence, with the batch where two of one name are about. */
export function productName(notebook: Notebook, id: string | undefined): string {
  const product = id === undefined ? undefined : productOf(notebook, id);
  if (!product?.name) return say('a product that is not named');
  const isShared = productsOf(notebook).filter(({ name }) => name === product.name).length > 1;
  return isShared && product.batch
    ? say('{name} (batch {batch})', { name: product.name, batch: product.batch })
    : product.name;
}

/** The products that can still be chosen, in the person's order. */
export function productsInUse(notebook: Notebook): readonly Product[] {
  return productsOf(notebook).filter((product) => product.retired !== true);
}

/** Adds a product; everything in it was typed. The first thing that is wrong with it is the fault. */
export function addProduct(notebook: Notebook, id: string, facts: TypedProduct): Edit | Fault {
  const wrong = productFaults({ id, ...withoutNull(facts) })[0];
  if (wrong) return fault('bad-product', wrong.sentence);
  const order = orderAtEnd(productsOf(notebook));
  return {
    label: say('adding {name}', { name: facts.name?.trim() ?? '' }),
    source: 'typed',
    sets: setsOf('products', id, { ...facts, order }),
  };
}

/** Changes facts of a product. Doses and clear dates already in the log stay as they were given. */
export function changeProduct(notebook: Notebook, id: string, facts: TypedProduct): Edit | Fault {
  const product = productOf(notebook, id);
  if (!product) return fault('no-product', say('That product is not in this notebook.'));
  const wrong = productFaults({ ...withoutNull({ ...product, ...facts }), id })[0];
  if (wrong) return fault('bad-product', wrong.sentence);
  const label = say('a change to {name}', { name: product.name ?? say('a product') });
  return { label, source: 'typed', sets: setsOf('products', id, facts) };
}

/** Where a product is used: treatments that name it, and blocks that compare by it. */
export function productUses(notebook: Notebook, id: string): readonly string[] {
  const treatments = treatmentsOf(notebook).filter((treatment) => treatment.product === id).length;
  const blocks = blocksOf(notebook).filter((block) =>
    Object.values(block.choices ?? {}).some((choice) => choice.split(/[\s,]+/).includes(id)),
  );
  return [
    ...(treatments > 0
      ? [say('{n, plural, one {# treatment} other {# treatments}}', { n: treatments })]
      : []),
    ...blocks.map((block) => say('the block "{title}"', { title: block.title ?? block.kind })),
  ];
}

/** Takes a product off the list. One that is in use is refused: the log must keep its name. */
export function removeProduct(notebook: Notebook, id: string): Edit | Fault {
  const product = productOf(notebook, id);
  if (!product) return fault('no-product', say('That product is not in this notebook.'));
  const uses = productUses(notebook, id);
  const name = product.name ?? say('This product');
  if (uses.length > 0)
    return fault(
      'product-in-use',
      say(
        '{name} stays: it is named by {uses}. Mark it as no longer in use instead; it is then offered no more.',
        { name, uses: wordList(uses) },
      ),
    );
  return {
    label: say('removing {name}', { name }),
    source: 'typed',
    sets: [{ path: ['products', id, 'removed'], value: true }],
  };
}

/** Marks a product as no longer in use, or back in use; its log and checks stay. */
export function retireProduct(notebook: Notebook, id: string, retired: boolean): Edit | Fault {
  const product = productOf(notebook, id);
  if (!product) return fault('no-product', say('That product is not in this notebook.'));
  const name = product.name ?? say('a product');
  return {
    label: retired ? say('{name} no longer in use', { name }) : say('{name} back in use', { name }),
    source: 'typed',
    sets: [{ path: ['products', id, 'retired'], value: retired }],
  };
}

function withoutNull(facts: TypedProduct): Partial<ProductFacts> {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value != null));
}
