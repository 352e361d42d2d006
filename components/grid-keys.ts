/** A way to move in the grid. `up`/`down` by one, `top`/`bottom` the first and last cell of all. */
export type Way =
  | 'left'
  | 'right'
  | 'up'
  | 'down'
  | 'row start'
  | 'row end'
  | 'top'
  | 'bottom'
  | 'page up'
  | 'page down';

/** What a key asks of the grid. */
export type Command =
  | { readonly do: 'move'; readonly way: Way; readonly extend: boolean }
  | {
      readonly do: 'next empty';
      readonly way: 'left' | 'right' | 'up' | 'down';
      readonly extend: boolean;
    }
  | { readonly do: 'commit'; readonly then: 'next' | 'previous' | Way }
  | { readonly do: 'edit' | 'cancel' | 'clear' | 'undo' | 'redo' | 'fill down' | 'find' }
  | { readonly do: 'choices' | 'column menu' }
  /** The key does nothing here, and the browser must not scroll by it. */
  | { readonly do: 'nothing' }
  | { readonly do: 'select all' | 'select row' | 'select column' };

/** `typed`: begun by typing, so that arrows still move; `opened`: by F2 or Enter, they are the text's. */
export type Editing = 'no' | 'typed' | 'opened';

export interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

const arrows: Readonly<Record<string, 'left' | 'right' | 'up' | 'down'>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

/**
 * The WAI-ARIA grid pattern with the habits of spreadsheets. Null: the key is not the grid's, the
 * browser does what it does with it (types it, scrolls, leaves by Tab).
 */
export function commandOf(event: Key, editing: Editing): Command | null {
  return editing === 'no' ? whileMoving(event) : whileEditing(event, editing);
}

function whileMoving(event: Key): Command | null {
  const { key, shiftKey, altKey } = event;
  const ctrl = event.ctrlKey || event.metaKey;
  const arrow = arrows[key];
  if (altKey) return key === 'ArrowDown' || key === 'ArrowUp' ? { do: 'choices' } : null;
  if (arrow && ctrl) return { do: 'next empty', way: arrow, extend: shiftKey };
  if (arrow) return { do: 'move', way: arrow, extend: shiftKey };
  if (key === 'Home') return { do: 'move', way: ctrl ? 'top' : 'row start', extend: shiftKey };
  if (key === 'End') return { do: 'move', way: ctrl ? 'bottom' : 'row end', extend: shiftKey };
  if (key === 'PageUp' && !ctrl) return { do: 'move', way: 'page up', extend: shiftKey };
  if (key === 'PageDown' && !ctrl) return { do: 'move', way: 'page down', extend: shiftKey };
  if (key === 'ContextMenu' || (key === 'F10' && shiftKey)) return { do: 'column menu' };
  if (key === ' ' && ctrl) return { do: 'select column' };
  if (key === ' ' && shiftKey) return { do: 'select row' };
  if (ctrl) return withCtrl(key.toLowerCase(), shiftKey);
  if (key === 'Enter') return shiftKey ? { do: 'move', way: 'up', extend: false } : { do: 'edit' };
  if (key === 'F2') return { do: 'edit' };
  if (key === 'Delete' || key === 'Backspace') return { do: 'clear' };
  if (key === 'Escape') return { do: 'cancel' };
  return null;
}

function withCtrl(key: string, shift: boolean): Command | null {
  if (key === 'a') return { do: 'select all' };
  if (key === 'd') return { do: 'fill down' };
  if (key === 'f') return { do: 'find' };
  if (key === 'y' && !shift) return { do: 'redo' };
  if (key === 'z') return { do: shift ? 'redo' : 'undo' };
  return null;
}

const nothing: Command = { do: 'nothing' };

function whileEditing(event: Key, editing: 'typed' | 'opened'): Command | null {
  const { key, shiftKey } = event;
  const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (!plain) return event.altKey && (key === 'ArrowUp' || key === 'ArrowDown') ? nothing : null;
  if (key === 'Enter') return { do: 'commit', then: shiftKey ? 'up' : 'down' };
  if (key === 'Tab') return { do: 'commit', then: shiftKey ? 'previous' : 'next' };
  if (key === 'Escape') return { do: 'cancel' };
  if (editing === 'opened' || shiftKey)
    return key === 'PageUp' || key === 'PageDown' ? nothing : null;
  const arrow = arrows[key];
  if (arrow) return { do: 'commit', then: arrow };
  if (key === 'PageUp') return { do: 'commit', then: 'page up' };
  if (key === 'PageDown') return { do: 'commit', then: 'page down' };
  return null;
}

/** Whether a key would type something, for cells that cannot be typed into. */
export function isTyping(event: Key): boolean {
  return [...event.key].length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
}
