import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Template } from '../../shared/template.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { readTemplateText } from '../notebook/read-template.ts';

const folder = fileURLToPath(new URL('../../templates', import.meta.url));

/** The ids of the templates that come with the program. */
export function templateIds(): readonly string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.slice(0, -'.json'.length))
    .sort();
}

/** A template by its id, or by the path of its file. */
export function findTemplate(name: string): Template | Fault {
  const isKnown = templateIds().includes(name);
  if (!isKnown && !existsSync(name)) {
    return fault(
      'no-template',
      `There is no template "${name}", and no file of that name. Choose one of: ${templateIds().join(', ')}; or give the path of a template file.`,
    );
  }
  try {
    const read = readTemplateText(readFileSync(isKnown ? `${folder}/${name}.json` : name, 'utf8'));
    return isFault(read) ? fault(read.fault, `${name}: ${read.sentence}`) : read;
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return fault('no-template', `The template ${name} cannot be read: ${reason}.`);
  }
}
