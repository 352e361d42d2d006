import type { Notebook } from '../shared/notebook.ts';
import type { Template } from '../shared/template.ts';
import { fileName } from '../src/csv/file-name.ts';
import { writeNotebookText } from '../src/notebook/notebook-file.ts';
import { aboutOf } from '../src/notebook/read.ts';
import { downloadText } from './download.ts';

const jsonType = 'application/json';

/** `Far Fell 2026 2026-05-03 notebook.json`: name, day and kind, as every file of this program. */
function nameOf(notebook: Notebook, today: string): string {
  return fileName(aboutOf(notebook).title ?? '', today, 'notebook', 'json');
}

/** Hands the notebook to the browser as a file to be saved. */
export function saveNotebook(notebook: Notebook, today: string): void {
  downloadText(nameOf(notebook, today), writeNotebookText(notebook), jsonType);
}

/** Hands a template to the browser as a file to be saved. */
export function saveTemplate(template: Template): void {
  const text = `${JSON.stringify(template, null, 2)}\n`;
  downloadText(fileName(template.name, '', 'template', 'json'), text, jsonType);
}

/**
 * The file as the device's share sheet takes it. Some browsers share no `.json` file, but the same text
 * as a `.txt` file; it opens here just as well.
 */
function shared(navigator: Navigator, name: string, text: string): File | null {
  const files = [
    new File([text], name, { type: jsonType }),
    new File([text], name.replace(/json$/, 'txt'), { type: 'text/plain' }),
  ];
  return files.find((file) => navigator.canShare?.({ files: [file] }) === true) ?? null;
}

/** Whether this device has a share sheet that takes a notebook's file. */
export function canShareNotebooks(navigator: Navigator): boolean {
  return shared(navigator, 'notebook.json', '{}') !== null;
}

/** Hands the notebook to the device's share sheet; false where the person thought better of it. */
export async function shareNotebook(
  navigator: Navigator,
  notebook: Notebook,
  today: string,
): Promise<boolean> {
  const file = shared(navigator, nameOf(notebook, today), writeNotebookText(notebook));
  if (!file) return false;
  try {
    await navigator.share({ files: [file] });
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return false;
    throw error;
  }
}
