import { noChange } from 'lit';
import {
  Directive,
  PartType,
  directive,
  type AttributePart,
  type DirectiveResult,
  type PartInfo,
} from 'lit/directive.js';

/** Style properties by their CSS names, custom ones included; null takes one away. */
export type Styles = Readonly<Record<string, string | number | null | undefined>>;

const none: ReadonlyMap<string, string> = new Map();

function wantedOf(styles: Styles): ReadonlyMap<string, string> {
  const wanted = Object.entries(styles).flatMap(([name, value]) =>
    value === null || value === undefined ? [] : [[name, String(value)] as const],
  );
  return wanted.length === 0 ? none : new Map(wanted);
}

/**
 * Style properties of one element, set through its style object and never as an attribute: the page's
 * content policy refuses style attributes, also those that a script writes, and lit's own directive
 * writes one at the first drawing.
 */
class StyleMap extends Directive {
  private given: Styles | undefined;
  private written = none;

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.ATTRIBUTE || part.name !== 'style')
      throw new Error('styleMap is written as the value of a style attribute.');
  }

  override render(_styles: Styles): unknown {
    return noChange;
  }

  override update(part: AttributePart, [styles]: [Styles]): unknown {
    if (styles === this.given) return noChange;
    this.given = styles;
    const { style } = part.element;
    const wanted = wantedOf(styles);
    for (const name of this.written.keys()) if (!wanted.has(name)) style.removeProperty(name);
    for (const [name, value] of wanted)
      if (this.written.get(name) !== value) style.setProperty(name, value);
    this.written = wanted;
    return noChange;
  }
}

export const styleMap: (styles: Styles) => DirectiveResult = directive(StyleMap);
