import type { PageSwatch } from './data.ts';

const TITLED = ['tile', 'recipe'];

/** What is said of seams under a swatch. */
export const SEAM_WORDS = { closes: '', look: 'seams want a look', open: 'does not close' } as const;

/** What a swatch is called under its tile's heading. */
export function titleOf({ labels, name }: PageSwatch): string {
  return labels.recipe ?? name;
}

/** The axes besides tile and recipe on which swatches differ, with this one's values. */
export function differenceOf({ labels }: PageSwatch, axes: readonly string[]): string {
  return axes
    .filter((axis) => !TITLED.includes(axis) && labels[axis] !== undefined)
    .map((axis) => `${axis} ${labels[axis]}`)
    .join(', ');
}

/** All of it in one line. */
export function fullTitle(swatch: PageSwatch, axes: readonly string[]): string {
  const { labels } = swatch;
  return [labels.tile, titleOf(swatch), differenceOf(swatch, axes)].filter(Boolean).join(', ');
}

export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
