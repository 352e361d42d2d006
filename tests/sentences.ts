import { parse, TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import ts from 'typescript';
import type { Sources } from './import-graph.ts';

/** One sentence for people as it stands in the source. */
export interface Sentence {
  readonly english: string;
  /** Where it stands: `components/sd-note.ts:12`. */
  readonly place: string;
}

/** What was found in the source, and the calls whose sentence does not stand there letter by letter. */
export interface Gathered {
  readonly sentences: readonly Sentence[];
  readonly faults: readonly string[];
}

const sayers = new Set(['say', 'sayParts']);

function nodesOf(path: string, text: string): readonly ts.Node[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ESNext, true);
  const nodes: ts.Node[] = [];
  const visit = (node: ts.Node): void => {
    nodes.push(node);
    node.forEachChild(visit);
  };
  visit(file);
  return nodes;
}

function placeOf(path: string, node: ts.Node): string {
  const { line } = node.getSourceFile().getLineAndCharacterOfPosition(node.getStart());
  return `${path}:${line + 1}`;
}

/** A sentence written out, in one piece or in pieces joined by `+`; `null` for anything else. */
function written(node: ts.Expression | undefined): string | null {
  if (!node) return null;
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isBinaryExpression(node) || node.operatorToken.kind !== ts.SyntaxKind.PlusToken) {
    return null;
  }
  const left = written(node.left);
  const right = written(node.right);
  return left === null || right === null ? null : left + right;
}

/** Every sentence the source says to people. */
export function gatherSentences(sources: Sources): Gathered {
  const sentences: Sentence[] = [];
  const faults: string[] = [];
  for (const [path, text] of sources) {
    // The programs of the command line speak English, like the names they are called by.
    if (path === 'src/text/say.ts' || path.startsWith('src/cli/')) continue;
    for (const node of nodesOf(path, text)) {
      if (!ts.isCallExpression(node) || !ts.isIdentifier(node.expression)) continue;
      if (!sayers.has(node.expression.text)) continue;
      const english = written(node.arguments[0]);
      const place = placeOf(path, node);
      if (english === null) faults.push(`${place}: the sentence is not written out.`);
      else sentences.push({ english, place });
    }
  }
  return { sentences, faults };
}

/** Attributes whose text is shown or read aloud. */
const readAloud = /\s(aria-label|aria-description|title|placeholder|alt|label|heading)="([^"]*)"/g;

/** Signs and units that are the same in every language, and what is typed in formulas. */
const everywhere = /^(?:[\d\s·×÷=+\-–−%/:.,()…✓✗]|kg|lb|mL|mg|g|CSV|HTML|PDF|JSON|epg)*$/;

function hasWords(text: string): boolean {
  const plain = text
    .replaceAll(/\uE000/g, ' ')
    .replaceAll(/&[a-z]+;/g, ' ')
    .trim();
  return /[A-Za-z]{2}/.test(plain) && !everywhere.test(plain);
}

/** The text of a template with a mark in each place of a value. */
function textOf(template: ts.TemplateLiteral): string {
  if (ts.isNoSubstitutionTemplateLiteral(template)) return template.text;
  return template.templateSpans.reduce(
    (text, span) => `${text}\uE000${span.literal.text}`,
    template.head.text,
  );
}

/** Words that stand in a template of the page without being said, so that no language could have them. */
export function unsaidWords(sources: Sources): string[] {
  const found: string[] = [];
  for (const [path, source] of sources) {
    for (const node of nodesOf(path, source)) {
      if (!ts.isTaggedTemplateExpression(node)) continue;
      if (!/^(html|svg)$/.test(node.tag.getText())) continue;
      const markup = textOf(node.template);
      const withoutCode = markup
        .replaceAll(/<!--[\s\S]*?-->/g, '')
        .replaceAll(/<(code|kbd)\b[\s\S]*?<\/\1>/g, '');
      const shown = [
        ...[...withoutCode.matchAll(readAloud)].map((match) => match[2] ?? ''),
        ...withoutCode.split(/<\/?[a-zA-Z](?:[^>"']|"[^"]*"|'[^']*')*>/),
      ];
      for (const text of shown.filter(hasWords)) {
        found.push(`${placeOf(path, node)}: "${text.replaceAll('\uE000', '…').trim()}"`);
      }
    }
  }
  return found;
}

/** Names of the places of a sentence in ICU form, and of its plurals, in no order. Throws where it is no message. */
export function placesOf(sentence: string): readonly string[] {
  const found = new Set<string>();
  const look = (elements: readonly MessageFormatElement[]): void => {
    for (const element of elements) {
      if (!('value' in element) || element.type === TYPE.literal) continue;
      if (typeof element.value === 'string') found.add(element.value);
      if ('options' in element)
        for (const option of Object.values(element.options)) look(option.value);
    }
  };
  look(parse(sentence, { ignoreTag: true }));
  return [...found].sort();
}

/** Sentences said with other places than theirs: one that is lacking throws only once the page gets there. */
export function unfilledPlaces(sources: Sources): string[] {
  const found: string[] = [];
  for (const [path, text] of sources) {
    if (path === 'src/text/say.ts' || path.startsWith('src/cli/')) continue;
    for (const node of nodesOf(path, text)) {
      if (!ts.isCallExpression(node) || !sayers.has(node.expression.getText())) continue;
      const [sentence, filling] = node.arguments;
      const english = written(sentence);
      if (english === null || !filling || !ts.isObjectLiteralExpression(filling)) continue;
      if (filling.properties.some(ts.isSpreadAssignment)) continue;
      const filled = filling.properties.map((property) => property.name?.getText() ?? '').sort();
      if (filled.join() === placesOf(english).join()) continue;
      found.push(`${placeOf(path, node)}: filled with ${filled.join(', ')}: "${english}"`);
    }
  }
  return found;
}
