import { fault, isFault, type Fault } from '../../shared/value.ts';
import { isBranch } from './sound-parts.ts';
import { say } from '../text/say.ts';

/** The version of the notebook that this program writes. */
export const notebookVersion = 1;

/** The version of the formula language that this program reads. */
export const languageVersion = 1;

/** A notebook of some version, as read from a file or a store. */
export type AnyVersion = Readonly<Record<string, unknown>>;

/** Takes a notebook from one version to the next. A step, once released, is never changed again. */
export type Step = (notebook: AnyVersion) => AnyVersion;

/**
 * The road from old versions: `steps.get(n)` takes version n to n + 1. Version 1 is the first one,
 * so the road is empty yet.
 */
const road: ReadonlyMap<number, Step> = new Map();

/**
 * Brings a notebook of any former version to the present one, step by step; steps and versions are the
 * program's own unless given. Faults: `not-a-notebook`, `template-not-notebook`, `no-version`,
 * `newer-version`, `version-lost`.
 */
export function migrate(
  json: unknown,
  steps: ReadonlyMap<number, Step> = road,
  present: number = notebookVersion,
): AnyVersion | Fault {
  if (!isBranch(json) || json['format'] !== 'sampling-daybook' || isFault(json))
    return notANotebook(json);
  const { version, language } = json;
  if (!Number.isInteger(version) || (version as number) < 1)
    return fault(
      'no-version',
      say(
        'This notebook does not say which version it is (version should be 1, 2, …), so it cannot be read safely. Open an earlier copy of the file.',
      ),
    );
  const newer = newerVersion(version as number, language, present);
  if (newer) return newer;
  let notebook: AnyVersion = json;
  for (let at = version as number; at < present; at += 1) {
    const step = steps.get(at);
    if (!step)
      return fault(
        'version-lost',
        say(
          'This notebook has version {version}, and this program has no step from there. Please report it; the file itself is unharmed.',
          { version: at },
        ),
      );
    notebook = { ...step(notebook), version: at + 1 };
  }
  return notebook;
}

/** The fault for a notebook of a newer program; null for one that this program can read. */
export function newerVersion(
  version: number,
  language: unknown,
  present: number = notebookVersion,
): Fault | null {
  const isNewer = version > present || (typeof language === 'number' && language > languageVersion);
  return isNewer
    ? fault(
        'newer-version',
        say(
          'This notebook was written by a newer Sampling Daybook than this one. Open it there, or update this one by reloading the page with a network. Nothing was changed.',
        ),
      )
    : null;
}

function notANotebook(json: unknown): Fault {
  const format = isBranch(json) ? json['format'] : undefined;
  return format === 'sampling-daybook-template'
    ? fault(
        'template-not-notebook',
        say(
          'This file is a template, not a notebook. Start a new notebook and choose it there as the template.',
        ),
      )
    : fault(
        'not-a-notebook',
        say(
          'This is not a notebook file of Sampling Daybook. A list of tags or counts can be brought in as a CSV file.',
        ),
      );
}
