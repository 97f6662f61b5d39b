/** Prints a line of facts: what it is about, indented, and the words. */
export function row(label: string, text: string): void {
  console.log(`  ${label.padEnd(8)} ${text}`);
}
