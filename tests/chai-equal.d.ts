import '@open-wc/testing';

/**
 * The markup comparison that comes with the element tests declares `equal` as a promise for every
 * kind of value. It is one for none but itself: plain values are compared at once.
 */
declare global {
  namespace Chai {
    interface Equal {
      (value: unknown, message?: string): Assertion;
    }
  }
}
