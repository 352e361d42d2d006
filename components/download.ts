/** Hands text to the browser as a file to be saved, under a name safe on every system. */
export function downloadText(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName(name);
  link.click();
  // The browser has taken the file over by the next turn; a slow one still reads from memory.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A file's name without marks that some system refuses. */
export function fileName(name: string): string {
  const safe = [...name].map((mark) => (isRefused(mark) ? ' ' : mark)).join('');
  return safe.replace(/\s+/g, ' ').trim().slice(0, 120) || 'notebook';
}

function isRefused(mark: string): boolean {
  return mark < ' ' || '<>:"/\\|?*'.includes(mark);
}
