/**
 * What the page may ask the server it came from. A browser keeps notebooks by address, port
 * included; so a page at any other address than the usual one must say that it cannot see them.
 */

/** The port the program is always started on, unless another program holds it. */
export const USUAL_PORT = 5180;

/** The address at which a person's notebooks are kept. */
export const USUAL_ADDRESS = `http://localhost:${USUAL_PORT}`;

/** The answer to `served.json`, relative to the page. Any other server answers 404. */
export interface Served {
  readonly program: 'sampling-daybook';
  readonly version: string;
  /** Always {@link USUAL_ADDRESS}: compare it with the page's own `location.origin`. */
  readonly usualAddress: string;
  /** True if the usual port was held by another program when this server was started. */
  readonly usualPortTaken: boolean;
}
