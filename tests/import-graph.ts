import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import ts from 'typescript';

/**
 * The shape of the source: which folder may import which, where each third-party package is at
 * home, and how long a file may be. Each check takes its facts as arguments and returns sentences,
 * so that it can be shown to fail as well as to pass.
 */

/** Source files by path under the root (`src/stats/poisson.ts`), with their text. */
export type Sources = ReadonlyMap<string, string>;

/** What each file imports: a path under the root, or the name of a package. */
export type Imports = ReadonlyMap<string, readonly string[]>;

/** Each folder under `src/`, and which of its neighbours it may import. Everything may use shared. */
const NEIGHBOURS: Readonly<Record<string, readonly string[]>> = {
  text: [],
  stats: ['text'],
  notebook: ['text', 'stats'],
  treating: ['text', 'stats', 'notebook'],
  engine: ['text', 'stats', 'notebook', 'treating'],
  csv: ['text', 'stats', 'notebook', 'treating'],
  simulation: ['text', 'stats', 'notebook'],
  storage: ['text', 'stats', 'notebook'],
  session: ['text', 'stats', 'notebook', 'treating', 'engine', 'csv'],
  cli: [
    'text',
    'stats',
    'notebook',
    'treating',
    'engine',
    'csv',
    'simulation',
    'storage',
    'session',
  ],
};

/** The one place from which a package may be imported, so that replacing it touches one place. */
const HOMES: readonly { readonly name: RegExp; readonly home: RegExp; readonly words: string }[] = [
  { name: /^hyperformula$/, home: /^src\/engine\//, words: 'src/engine' },
  { name: /^papaparse$/, home: /^src\/csv\//, words: 'src/csv' },
  { name: /^intl-messageformat$/, home: /^src\/text\//, words: 'src/text' },
  { name: /^idb-keyval$/, home: /^src\/storage\//, words: 'src/storage' },
  { name: /^@stdlib\//, home: /^src\/stats\//, words: 'src/stats' },
  { name: /^fractional-indexing$/, home: /^src\/notebook\//, words: 'src/notebook' },
  {
    name: /^@observablehq\/plot$/,
    home: /^components\/(.+\/)?plot-[^/]+\.ts$/,
    words: 'components/plot-*.ts',
  },
  { name: /^(lit|@lit\/context)$/, home: /^components\//, words: 'components' },
  { name: /^node:/, home: /^src\/cli\//, words: 'src/cli' },
];

/** The package a specifier names: `lit/directives/repeat.js` is of `lit`. */
function packageOf(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  const parts = specifier.split('/');
  return parts.slice(0, specifier.startsWith('@') ? 2 : 1).join('/');
}

/** Reads every `.ts` file in the folders named. */
export function readSources(root: string, folders: readonly string[]): Sources {
  const sources = new Map<string, string>();
  for (const folder of folders) {
    for (const entry of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })) {
      const path = posix.join(folder, entry.replaceAll('\\', '/'));
      if (path.endsWith('.ts')) sources.set(path, readFileSync(join(root, path), 'utf8'));
    }
  }
  return sources;
}

/** Finds what each file imports, types and `import()` and workers started by address included. */
export function readImports(sources: Sources): Imports {
  const imports = new Map<string, readonly string[]>();
  for (const [path, text] of sources) {
    const named = ts.preProcessFile(text, true, true).importedFiles.map((file) => file.fileName);
    const byAddress = [
      ...text.matchAll(/new URL\(\s*['"](\.[^'"]+\.ts)['"],\s*import\.meta\.url/g),
    ];
    const all = [...named, ...byAddress.map((match) => match[1] ?? '')];
    imports.set(
      path,
      all.map((specifier) =>
        specifier.startsWith('.')
          ? posix.join(posix.dirname(path), specifier.replace(/\?.*$/, ''))
          : packageOf(specifier),
      ),
    );
  }
  return imports;
}

/** The layer and the folder of a path: `src/engine/names.ts` is of layer `src`, folder `engine`. */
function placeOf(path: string): { layer: string; folder: string | undefined } {
  const [layer = '', folder] = path.split('/');
  return { layer, folder: path.split('/').length > 2 ? folder : undefined };
}

function isPath(target: string): boolean {
  return /^(shared|src|components|templates|languages|tests|\.\.)(\/|$)/.test(target);
}

/** Imports that point up or sideways, out of the source, or from a file of `src/` outside a folder. */
export function arrowFaults(imports: Imports): string[] {
  const down: Readonly<Record<string, readonly string[]>> = {
    shared: ['shared'],
    src: ['src', 'shared'],
    components: ['components', 'src', 'shared', 'templates', 'languages'],
  };
  const faults: string[] = [];
  for (const [path, targets] of imports) {
    const from = placeOf(path);
    if (from.layer === 'src' && NEIGHBOURS[from.folder ?? ''] === undefined) {
      faults.push(`${path}: src holds only the folders ${Object.keys(NEIGHBOURS).join(', ')}.`);
    }
    for (const target of targets.filter(isPath)) {
      const to = placeOf(target);
      const templateByCli = from.folder === 'cli' && to.layer === 'templates';
      if (down[from.layer]?.includes(to.layer) !== true && !templateByCli) {
        faults.push(`${path} imports ${target}: ${from.layer} may not import ${to.layer}.`);
      } else if (from.layer === 'src' && to.layer === 'src' && from.folder !== to.folder) {
        if (NEIGHBOURS[from.folder ?? '']?.includes(to.folder ?? '') !== true) {
          faults.push(
            `${path} imports ${target}: src/${from.folder} may not import src/${to.folder}.`,
          );
        }
      }
    }
  }
  return faults;
}

/** Third-party imports away from home, in `shared/`, or not among the dependencies of the program. */
export function packageFaults(imports: Imports, dependencies: readonly string[]): string[] {
  const faults: string[] = [];
  for (const [path, targets] of imports) {
    for (const target of targets.filter((name) => !isPath(name))) {
      const rule = HOMES.find(({ name }) => name.test(target));
      if (rule && !rule.home.test(path)) {
        faults.push(`${path} imports ${target}, which is at home in ${rule.words} only.`);
      } else if (!rule) {
        faults.push(`${path} imports ${target}, which has been given no home.`);
      }
      if (!target.startsWith('node:') && !dependencies.includes(target)) {
        faults.push(`${path} imports ${target}, which is not among the dependencies.`);
      }
    }
  }
  return faults;
}

/** Each loop of files that import one another, once, starting at the file found first. */
export function importLoops(imports: Imports): string[] {
  const loops: string[] = [];
  const done = new Set<string>();
  const trail: string[] = [];
  const visit = (path: string): void => {
    const start = trail.indexOf(path);
    if (start >= 0) {
      loops.push([...trail.slice(start), path].join(' → '));
      return;
    }
    if (done.has(path)) return;
    trail.push(path);
    for (const target of imports.get(path) ?? []) if (imports.has(target)) visit(target);
    trail.pop();
    done.add(path);
  };
  for (const path of imports.keys()) visit(path);
  return loops;
}

/** Files longer than allowed without a reason, and reasons given for files that need none. */
export function lengthFaults(
  sources: Sources,
  most: number,
  reasons: Readonly<Record<string, string>>,
): string[] {
  const faults: string[] = [];
  for (const [path, text] of sources) {
    const lines = text.split('\n').length - 1;
    const reason = reasons[path];
    if (lines > most && !reason) faults.push(`${path} has ${lines} lines, more than ${most}.`);
    if (lines <= most && reason) faults.push(`${path} is no longer long: take it off the list.`);
  }
  for (const path of Object.keys(reasons)) {
    if (!sources.has(path)) faults.push(`${path} is listed as long and does not exist.`);
  }
  return faults;
}

/**
 * Ways to put text into the page as markup, and style attributes, which the page's content policy
 * refuses. `styleMap` sets styles one by one, which it allows. And `selected` as an attribute: once a
 * person has chosen, a browser no longer heeds it, and the list shows what does not hold.
 */
export function markupFaults(sources: Sources): string[] {
  const forbidden =
    /innerHTML|outerHTML|insertAdjacentHTML|document\.write|unsafe(HTML|SVG|Static|MathML)|(?<=\s)style=(?!\$\{\s*styleMap\()|setAttribute\(\s*['"]style|\?selected=/g;
  const faults: string[] = [];
  for (const [path, text] of sources) {
    if (!path.startsWith('components/')) continue;
    for (const match of text.matchAll(forbidden)) {
      const line = text.slice(0, match.index).split('\n').length;
      faults.push(`${path}:${line} has ${match[0].trim()}.`);
    }
  }
  return faults;
}

/** What lies at the top of the project and is not meant to. */
export function topLevelFaults(names: readonly string[]): string[] {
  const allowed = new Set(
    (
      'README.md DEVELOPERS.md LICENSE package.json package-lock.json tsconfig.json vite.config.ts ' +
      'eslint.config.js .prettierrc .prettierignore .gitignore .ci shared src components templates languages tests'
    ).split(' '),
  );
  // Made by tools, and named in .gitignore.
  const made = /^(\.git|node_modules|dist|coverage|.+\.local)$/;
  return names
    .filter((name) => !allowed.has(name) && !made.test(name))
    .map((name) => `${name} does not belong at the top: put it in the folder it serves.`);
}
