import type { NamedText } from './export-files.ts';

const csvType = 'text/csv;charset=utf-8';

function filesOf(texts: readonly NamedText[]): readonly File[] {
  return texts.map(({ name, text }) => new File([text], name, { type: 'text/csv' }));
}

/** Whether this device has a share sheet that takes files. */
export function canShareFiles(navigator: Navigator): boolean {
  const [probe] = filesOf([{ name: 'list.csv', text: '' }]);
  return probe !== undefined && (navigator.canShare?.({ files: [probe] }) ?? false);
}

/** Hands files to the device's share sheet. False where the person thought better of it. */
export async function shareFiles(
  navigator: Navigator,
  texts: readonly NamedText[],
): Promise<boolean> {
  try {
    await navigator.share({ files: [...filesOf(texts)] });
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return false;
    throw error;
  }
}

/** The type of a CSV file for a download. */
export const downloadType = csvType;
