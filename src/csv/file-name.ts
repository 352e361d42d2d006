import { say } from '../text/say.ts';

/**
 * The name of an exported file: farm, day and kind, in this order, so that files of one farm stand
 * together by date (`Hill Farm 2026-05-03 for the vet.csv`). Marks that some system refuses in a
 * file name become spaces.
 */
export function fileName(place: string, day: string, kind: string, ending = 'csv'): string {
  const words = [place, day, kind].map((part) =>
    [...part.normalize('NFC')]
      .map((letter) => (/[\p{Cc}\p{Cf}\\/:*?"<>|]/u.test(letter) ? ' ' : letter))
      .slice(0, 60)
      .join('')
      .replace(/\s+/g, ' ')
      .replace(/^[\s.]+|[\s.]+$/g, ''),
  );
  return `${words.filter((word) => word !== '').join(' ') || say('sampling day')}.${ending}`;
}
