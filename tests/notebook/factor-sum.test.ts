import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import {
  factorSum,
  fluidAdded,
  typedFactorFault,
  type FactorSum,
  type Sample,
} from '../../src/notebook/factor-sum.ts';

function sample(
  grams: number,
  fluidMl: number,
  fluidIs: Sample['fluidIs'],
  areas: number,
  areaMl = 0.15,
): Sample {
  return { grams, fluidMl, fluidIs, areaMl, areas };
}

function sumOf(of: Sample): FactorSum {
  const sum = factorSum(of);
  if (isFault(sum)) throw new Error(sum.sentence);
  return sum;
}

const added = 'added' as const;
const madeUp = 'made up to' as const;

// Protocols as published; where a text rounds its factor, the published one is the last entry.
const protocols = [
  ['FAO/RVC guide (read): 3 g + 42 mL', sample(3, 42, added, 2), 50, 50],
  ['Cork & Lejeune, 3rd ed. p. 120 (read): 3 g in 45 mL', sample(3, 45, madeUp, 1), 100, 100],
  ['AAEP 2024 App. A (read): 4 g + 26 mL', sample(4, 26, added, 2), 25, 25],
  ['goat procedure of a US university (read): 2 g + 28 mL', sample(2, 28, added, 2), 50, 50],
  ['Roepstorff & Nansen 1998, simple (memory): 4 g + 56 mL', sample(4, 56, added, 2), 50, 50],
  ['Wetzel, in Vadlejch 2011 (60 mL inferred)', sample(2, 60, madeUp, 3), 200 / 3, 67],
  ['Zajicek, in Vadlejch 2011 (10 mL inferred)', sample(1, 10, madeUp, 2), 100 / 3, 33],
  ['Dunn & Keymer 1986: 15 mL for each gram', sample(1, 15, added, 2), 160 / 3, 53.3],
  ['hand-out form (memory): 2 g + 60 mL added', sample(2, 60, added, 2), 310 / 3, 100],
  ['common practice, no source: 2 g + 28 mL, one grid', sample(2, 28, added, 1), 100, 100],
] as const;

describe('factorSum(sample)', () => {
  it.each(protocols)('%s', (_, of, exactly, published) => {
    const sum = sumOf(of);
    expect(sum.factor).toBe(exactly);
    expect(typedFactorFault(published, sum)).toBeNull();
  });

  it('writes the sum down as a person would', () => {
    expect(sumOf(sample(2, 28, added, 2)).words).toBe('(28 mL + 2 g) ÷ (2 g × 0.15 mL × 2) = 50');
    expect(sumOf(sample(3, 45, madeUp, 1)).words).toBe('45 mL ÷ (3 g × 0.15 mL × 1) = 100');
    expect(sumOf(sample(2, 60, madeUp, 3)).words).toBe('60 mL ÷ (2 g × 0.15 mL × 3) ≈ 66.67');
  });

  it("uses the notebook's decimal mark", () => {
    const sum = factorSum(sample(1.5, 28.5, added, 1.5), ',');
    expect(sum).toMatchObject({ words: '(28,5 mL + 1,5 g) ÷ (1,5 g × 0,15 mL × 1,5) ≈ 88,89' });
  });

  it('keeps an override of a row exact where binary arithmetic is not', () => {
    // 30 mL ÷ (1.5 g × 0.4 mL) is 50 on paper.
    expect(sumOf(sample(1.5, 28.5, added, 2, 0.2)).factor).toBe(50);
    expect(fluidAdded(sample(2.1, 30.3, madeUp, 2))).toBe(28.2);
  });

  it('is a fault where the dung alone fills more than the volume', () => {
    expect(factorSum(sample(4, 3, madeUp, 2))).toMatchObject({ fault: 'made-up-too-small' });
    expect(factorSum(sample(0, 28, added, 2))).toMatchObject({ fault: 'bad-amount' });
  });
});

describe('typedFactorFault(typed, sum)', () => {
  const sum = sumOf(sample(4, 26, added, 2));

  it('warns of a concentrated method without refusing it', () => {
    // Roepstorff & Nansen's concentrated form (read in the abstract of Vadlejch 2011): 4 g, factor 20.
    expect(typedFactorFault(20, sum)?.sentence).toBe(
      'The factor typed, 20, is 20 % below what the grams, fluid and areas give: (26 mL + 4 g) ÷ (4 g × 0.15 mL × 2) = 25. Right for a method that concentrates the eggs; otherwise check them.',
    );
    expect(typedFactorFault(50, sum)?.sentence).toMatch(/^The factor typed, 50, is 100 % above/);
  });

  it('keeps still up to 3.5 %, that included', () => {
    expect(typedFactorFault(25.875, sum)).toBeNull();
    expect(typedFactorFault(24.125, sum)).toBeNull();
    expect(typedFactorFault(25.88, sum)).not.toBeNull();
    expect(typedFactorFault(24.12, sum)).not.toBeNull();
  });
});
