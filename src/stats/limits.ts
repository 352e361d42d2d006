/** A pair of limits round an estimate, both in the unit of the estimate; `low <= high`. */
export interface Limits {
  readonly low: number;
  readonly high: number;
}
