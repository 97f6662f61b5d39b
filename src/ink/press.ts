import { Fault } from '../fault.ts';
import { dotShare, toneReflectance } from './overprint.ts';

/** What a press makes of a tone: either a table of percents asked and printed, or the n of Yule and Nielsen. */
export type PressGain = { readonly table: readonly (readonly [number, number])[] } | { readonly n: number };

/** Gives for a wished tone, 0..1, the tone to ask of the press, 0..1. */
export type PressCurve = (wished: number) => number;

/** Reflectance of solid ink over that of the ground, where n is given: a middling one of printed inks. */
const SOLID = 0.06;
const MOST_N = 10;

/**
 * The inverse of what a press does, so that the printed tone is the wished one. Between the percents of a table it
 * runs straight; 0 and 100 stay where they are.
 *
 * @throws Fault (usage) for a table whose percents do not rise, or an n outside 1 to 10.
 */
export function pressCurve(gain?: PressGain): PressCurve {
  if (gain === undefined) return (wished) => wished;
  if ('n' in gain) {
    const { n } = gain;
    if (!(n >= 1 && n <= MOST_N)) throw wrong(`an n from 1 to ${MOST_N}`, String(n));
    return (wished) => dotShare(toneReflectance(wished, SOLID, 1), SOLID, 1, n);
  }
  const rows = [[0, 0], ...gain.table.filter(([asked]) => asked !== 0 && asked !== 100), [100, 100]];
  rows.forEach(([asked, printed], index) => {
    const before = rows[index - 1];
    if (before && !(asked > before[0] && printed > before[1]))
      throw wrong(
        'percents that rise from row to row',
        `${asked} -> ${printed} after ${before[0]} -> ${before[1]}`,
      );
  });
  return (wished) => {
    const percent = 100 * wished;
    const above = Math.max(
      1,
      rows.findIndex(([, printed]) => printed >= percent),
    );
    const [[low, lowPrinted], [high, highPrinted]] = [rows[above - 1], rows[above]];
    return (low + ((high - low) * (percent - lowPrinted)) / (highPrinted - lowPrinted)) / 100;
  };
}

function wrong(expected: string, received: string): Fault {
  return new Fault({
    kind: 'usage',
    expected,
    subject: 'the gain of the press',
    received,
    remedy: 'Write for example "gain": { "table": [[50, 65]] }: 50 % asked print as 65 %.',
  });
}
