import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { readNotebookText } from './notebook-file.ts';
import { readTemplate } from './read-template.ts';

/** What a JSON file of ours holds. */
export type FileRead =
  | { readonly kind: 'notebook'; readonly notebook: Notebook }
  | { readonly kind: 'template'; readonly template: Template };

/**
 * Reads a notebook or a template from a file's text, whichever it is; else a sentence that says what is
 * wrong with it, and where.
 */
export function readFileText(text: string): FileRead | Fault {
  const template = templateIn(text);
  if (template !== null) return isFault(template) ? template : { kind: 'template', template };
  const notebook = readNotebookText(text);
  return isFault(notebook) ? notebook : { kind: 'notebook', notebook };
}

/** Null where the file does not say of itself that it is a template. */
function templateIn(text: string): Template | Fault | null {
  if (!text.includes('"sampling-daybook-template"')) return null;
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return null;
  }
  const isOne =
    typeof json === 'object' &&
    json !== null &&
    (json as { format?: unknown }).format === 'sampling-daybook-template';
  return isOne ? readTemplate(json) : null;
}
