import type { PageData } from './data.ts';
import { element } from './element.ts';

/** The artwork of a swatch without texture, to stand before the cards; no canvas where it cannot be shown. */
export function originalFigure(
  { swatches, originals }: PageData,
  index: number,
): { readonly root: HTMLElement; readonly canvas?: HTMLCanvasElement } {
  const { labels, original } = swatches[index];
  const { cloth, reason } = originals[original!];
  const caption = element('figcaption', {}, 'Artwork without texture');
  if (!cloth) {
    const empty = element('div', { class: 'cloth empty' }, element('p', {}, reason ?? ''));
    return { root: element('figure', { class: 'original' }, empty, caption) };
  }
  const canvas = element('canvas', {
    role: 'img',
    'aria-label': `${labels.tile ?? 'Artwork'} without texture`,
  });
  const place = element('div', { class: 'cloth' }, canvas);
  return { root: element('figure', { class: 'original' }, place, caption), canvas };
}
