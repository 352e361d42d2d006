/** An element that is a dialog: it opens itself, and stays where it is when closed. */
export interface DialogElement extends HTMLElement {
  open(): void | Promise<void>;
}

/**
 * Opens a dialog element, fetched and made when first asked for. It is kept in `host` (the page, so
 * that it finds the session above it) and used again, so what was typed in it and not yet done is
 * still there. `prepare` hands it what it is about.
 */
export async function openDialog<T extends DialogElement>(
  host: HTMLElement,
  tag: `sd-${string}`,
  load: () => Promise<unknown>,
  prepare?: (dialog: T) => void,
): Promise<void> {
  await load();
  const root = host.shadowRoot ?? host;
  let dialog = root.querySelector<T>(`:scope > ${tag}, ${tag}[data-dialog]`);
  if (!dialog) {
    dialog = document.createElement(tag) as Element as T;
    dialog.dataset['dialog'] = '';
    root.append(dialog);
  }
  prepare?.(dialog);
  await dialog.open();
}
