/**
 * A new id that no other device will make: 16 letters and digits, 80 bits of chance. The browser's
 * ready-made ids are not offered at a plain http address, where the program has to work as well.
 */
export function randomId(): string {
  const alphabet = '0123456789abcdefghjkmnpqrstvwxyz';
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => alphabet[byte % 32]).join('');
}
