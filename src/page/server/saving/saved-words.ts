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
  readonly seams: { readonly summary: string };
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
    seams.summary,
    ...notes.map((note) => `${note}.`),
    ...warnings.map((warning) => `Look: ${warning}.`),
  ];
}
