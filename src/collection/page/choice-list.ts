import type { PageData, PageSwatch } from './data.ts';

/** The file that a list is saved in. */
export const LIST_FILE = 'favourites.txt';

/** The command that renders a list at print size. */
export function printCommand({ file }: Pick<PageData, 'file'>): string {
  return `tenter collect run ${file === undefined ? 'COLLECTION.json' : quoted(file)} --only ${LIST_FILE} --dpi 300`;
}

/** The list of the chosen, as "--only" takes it: a name to a line, remarks after #. */
export function listOf(data: PageData, chosen: readonly PageSwatch[]): string {
  const lines = [
    `# ${data.summary.replace(/\s+/g, ' ').replace(/[.\s]+$/, '')}: ${chosen.length} of ${data.swatches.length}`,
    `# ${printCommand(data)}`,
    ...chosen.map(wordFor),
  ];
  return `${lines.join('\n')}\n`;
}

/** A name that would read as a remark, or lose its ends, is given by its address. */
function wordFor({ name, address }: PageSwatch): string {
  return /(^|\s)#|^\s|\s$|[\r\n]/.test(name) ? address : name;
}

function quoted(word: string): string {
  return /^[\w.-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
