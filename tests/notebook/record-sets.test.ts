import { describe, expect, it } from 'vitest';
import { orderAtEnd, orderBefore, ordersAtEnd } from '../../src/notebook/record-sets.ts';

const listed = (...orders: string[]) => orders.map((order, i) => ({ id: `r${i}`, order }));

describe('orderBefore(list, id, beforeId)', () => {
  it('puts a record between two others, first, and last', () => {
    const [a = '', b = '', c = ''] = ordersAtEnd([], 3);
    const list = listed(a, b, c);
    const between = orderBefore(list, 'r2', 'r1');
    expect(between > a && between < b).toBe(true);
    expect(orderBefore(list, 'r2', 'r0') < a).toBe(true);
    expect(orderBefore(list, 'r0', null) > c).toBe(true);
  });

  it('parts records that share a key', () => {
    const [a = '', b = ''] = ordersAtEnd([], 2);
    const list = listed(a, b, b);
    const order = orderBefore([...list, { id: 'new', order: '' }], 'new', 'r2');
    expect(order > a && order < b).toBe(true);
  });
});

describe('keys that another program wrote wrongly', () => {
  it('are passed over, never thrown at', () => {
    const [a = ''] = ordersAtEnd([], 1);
    for (const wrong of ['zz', '', 'a0 0', '!']) {
      expect(orderAtEnd(listed(a, wrong)) > a).toBe(true);
      expect(typeof orderBefore(listed(a, wrong), 'r0', 'r1')).toBe('string');
    }
  });
});
