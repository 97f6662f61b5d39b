import type { Grade } from '../../../inspect/index.ts';
import { formatSize, trimNumber } from '../../../repeat/length.ts';

/** What "tenter lay --json" and "tenter make --json" say, as far as a person wants to read it. */
export interface RenderFacts {
  readonly repeat: {
    readonly layout: string;
    readonly widthMm: number;
    readonly heightMm: number;
    readonly widthPx: number;
    readonly heightPx: number;
    readonly dpi: { readonly x: number };
  };
  readonly layers?: readonly { readonly file: string; readonly mode: string; readonly holds: string }[];
  readonly seams: { readonly grade: Grade; readonly summary: string };
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
}

/** What came of a picture: its size, its density, whether it closes, and what to look at. */
export function wordsOfRender({ repeat, layers = [], seams, notes, warnings }: RenderFacts): string[] {
  const { widthMm, heightMm, widthPx, heightPx, dpi } = repeat;
  const size = formatSize({ width: widthMm, height: heightMm });
  return [
    `${size}, ${widthPx} x ${heightPx} px at ${trimNumber(dpi.x, 2)} dpi.`,
    ...layers.map(({ file, mode, holds }) => `${file} in blend mode ${mode}: ${holds}.`),
    CLOSING[seams.grade],
    ...notes.map(ended),
    ...warnings.map((warning) => ended(`Look: ${warning}`)),
  ];
}

/** How the result closes; what the check measured stands on the ticket and in the command's own words. */
const CLOSING: Readonly<Record<Grade, string>> = {
  closes: 'It closes.',
  look: 'Look at its seams.',
  open: 'It does not close over its layout.',
};

/** As a sentence. */
function ended(words: string): string {
  const begun = `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
}
