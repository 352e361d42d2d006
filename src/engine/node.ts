import type { DayId } from '../../shared/ref.ts';
import type { Target } from './names.ts';

/**
 * What can stand in the engine for a day: `c:ID` a column, `t:tag` an animal's own fact, `k:ID` a
 * criterion (all three: one cell for each animal); `l:ID` a limit, `f:ID` a figure, `p:grams` a line of
 * the protocol (one cell for the day).
 */
export type NodeKey = `${'c' | 't' | 'k' | 'l' | 'f' | 'p'}:${string}`;

/** A node on a day: the unit of dependence, and of loops. */
export interface DayNode {
  readonly day: DayId;
  readonly node: NodeKey;
}

/** Whether the node has a cell for each animal. */
export function isRowNode(node: NodeKey): boolean {
  return node.startsWith('c:') || node.startsWith('t:') || node.startsWith('k:');
}

export function idOf(node: NodeKey): string {
  return node.slice(2);
}

/** One text per node and day, for maps and sets. */
export function dayNodeKey({ day, node }: DayNode): string {
  return `${day}\n${node}`;
}

/** The node of a name; for a protocol name, of its line in the protocol. */
export function nodeOf(target: Target): NodeKey {
  switch (target.kind) {
    case 'column':
      return `c:${target.column.id}`;
    case 'limit':
      return `l:${target.limit.id}`;
    case 'figure':
      return `f:${target.figure.id}`;
    case 'fact':
      return `t:${target.fact}`;
    case 'protocol':
      return `p:${target.protocol.slice('day_'.length)}`;
  }
}
