import { formatSize } from '../../repeat/length.ts';
import { settingsLine } from './settings.ts';
import { type Swatch, tileOf } from './swatch.ts';

/** What stands under a swatch. */
export interface Caption {
  readonly title: string;
  /** Axes on which the sheet's swatches differ, with this one's values. */
  readonly differs: string;
  readonly settings: string;
  /** The shortest name that a list may call it by, and what its seams do. */
  readonly record: string;
}

/** Axes that the title names. */
const TITLED = ['tile', 'recipe'];

/** @param axes Those on which the sheet's swatches differ. */
export function captionOf(swatch: Swatch, axes: readonly string[]): Caption {
  const { labels, inputs, address, made } = swatch;
  const titles = TITLED.filter((axis) => axes.includes(axis) && labels[axis]).map((axis) => labels[axis]);
  const differs = axes
    .filter((axis) => !TITLED.includes(axis) && labels[axis] !== undefined)
    .map((axis) => `${axis} ${labels[axis]}`);
  const seams = made && !made.seams.closes ? ', does not close' : '';
  return {
    title: titles.join(', ') || labels.recipe || swatch.name,
    differs: differs.join(', '),
    settings: settingsLine(inputs),
    record: `${address.slice(0, 8)}${seams}`,
  };
}

/** What is true of a tile in all its variants, as far as it is known. */
export function tileFacts(swatches: readonly Swatch[]): string {
  const facts = swatches.map(({ made, inputs }) => {
    const { layout, widthMm, heightMm } = made?.picture ?? inputs?.repeat ?? {};
    return layout && widthMm && heightMm
      ? `${formatSize({ width: widthMm, height: heightMm })}, ${layout}`
      : '';
  });
  const different = [...new Set(facts.filter(Boolean))];
  return different.length === 1 ? different[0] : '';
}

/** The tile's name as a heading. */
export function headingOf(swatch: Swatch): string {
  return tileOf(swatch) || 'Swatches without a record';
}
