import type { Notebook } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { duplicateName } from './duplicate-names.ts';
import { salvage, validate, type Salvaged } from './validate.ts';
import { say } from '../text/say.ts';

/** The notebook as the text of one file: JSON, one line for each table. */
export function writeNotebookText(notebook: Notebook): string {
  const lines = Object.entries(notebook).map(
    ([name, value]) => `${JSON.stringify(name)}: ${JSON.stringify(value)}`,
  );
  return `{\n${lines.join(',\n')}\n}\n`;
}

/**
 * The notebook that a file holds, of whatever version it was written in; else a sentence that names
 * the place. The same notebook comes back as was written.
 */
export function readNotebookText(text: string): Notebook | Fault {
  const json = readJson(text);
  return isFault(json) ? json : validate(json.value);
}

/** What can be read of a file that `readNotebookText` refuses, with what cannot. */
export function salvageNotebookText(text: string): Salvaged | Fault {
  const json = readJson(text);
  return isFault(json) ? json : salvage(json.value);
}

function readJson(text: string): { readonly value: unknown } | Fault {
  const plain = text.replace(/^\ufeff/, '');
  if (plain.trim() === '')
    return fault(
      'empty-file',
      say('This file is empty. Choose the file the notebook was saved to.'),
    );
  let value: unknown;
  try {
    value = JSON.parse(plain);
  } catch {
    return plain.slice(0, 200).includes('"sampling-daybook"')
      ? fault(
          'damaged-file',
          say(
            'This notebook file is damaged, or was not copied whole. Copy it or save it again where it came from.',
          ),
        )
      : fault(
          'not-json',
          say(
            'This is not a notebook file. A list of tags or counts can be brought in as a CSV file.',
          ),
        );
  }
  const twice = duplicateName(plain);
  if (twice === null) return { value };
  return fault(
    'name-twice',
    say(
      '{place}: this name stands twice in the file, and only one of the two could be kept. Nothing was opened; remove one of them, or save the file again where it came from.',
      { place: twice.join(' › ') },
    ),
  );
}
