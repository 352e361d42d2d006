/** A note of several lines as the one line of an input, which would drop their ends. */
export function inOneLine(text: string): string {
  return text.replace(/\r\n|\r|\n/g, ' ⏎ ');
}

/** The lines that stand in {@link inOneLine}. */
export function inLines(line: string): string {
  return line.replace(/ ?⏎ ?/g, '\n');
}
