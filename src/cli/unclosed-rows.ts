import type { Report } from '../collection/index.ts';

/** A label and what stands beside it; a label is empty where the row before goes on. */
export type Row = readonly [label: string, text: string];

/** Names of one grade that are printed; the report has them all. */
const MOST_NAMED = 10;

/** Says which renders do not close and which want a look, by name. */
export function unclosedRows({ counts, unclosed }: Pick<Report, 'counts' | 'unclosed'>): Row[] {
  const named = (grade: string) => unclosed.filter((one) => one.grade === grade).map(({ name }) => name);
  const [open, look] = [named('open'), named('look')];
  if (unclosed.length === 0)
    return [['seams', counts.made ? 'all that is there closes' : 'nothing is there']];
  return [
    ...rowsOf(
      'open',
      `${open.length} of ${counts.made} ${open.length === 1 ? 'does' : 'do'} not close:`,
      open,
    ),
    ...rowsOf(
      'look',
      `${look.length} of ${counts.made} ${look.length === 1 ? 'wants' : 'want'} a look:`,
      look,
    ),
  ];
}

/** Says in which renders the mask of a step took nothing; no rows where every mask took something. */
export function unlaidRows({ counts, unlaid }: Pick<Report, 'counts' | 'unlaid'>): Row[] {
  const have = unlaid.length === 1 ? 'has' : 'have';
  return rowsOf(
    'mask',
    `${unlaid.length} of ${counts.made} ${have} a step whose mask took nothing; the notes beside each say why:`,
    unlaid,
  );
}

function rowsOf(label: string, heading: string, names: readonly string[]): Row[] {
  if (names.length === 0) return [];
  const rows: Row[] = [[label, heading], ...names.slice(0, MOST_NAMED).map((name): Row => ['', name])];
  const more = names.length - MOST_NAMED;
  return more > 0 ? [...rows, ['', `and ${more} more; the report names all`]] : rows;
}
