/** What a formula or a part of it comes out as; `any` where only the values can tell. */
export type Kind = 'number' | 'text' | 'truth' | 'any';

/** The kind of something that is either of two kinds. */
export function eitherKind(a: Kind, b: Kind): Kind {
  return a === b ? a : 'any';
}
