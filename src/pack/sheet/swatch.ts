import type { ParcelFacts } from '../facts.ts';
import { HAIR, INK, type Page, QUIET } from './page.ts';
import type { SheetPictures } from './pictures.ts';

/** mm of the ruler; shorter where the paper is too narrow. */
const RULER = 150;

/** The print at its real size, and a ruler to see that it is. @returns mm where it ends. */
export function drawSwatch(page: Page, top: number, { swatch }: SheetPictures, facts: ParcelFacts): number {
  const x = page.margin;
  page.picture(swatch.png, x, top, swatch.width, swatch.height);
  page.box(x, top, swatch.width, swatch.height, { stroke: HAIR });
  markCorners(page, x, top, swatch, facts);
  return drawRuler(page, x, top + swatch.height + 3.2);
}

/** Small marks outside the swatch where a copy of the tile begins, so that its size can be measured. */
function markCorners(
  page: Page,
  x: number,
  top: number,
  { width, height }: { width: number; height: number },
  { repeat }: ParcelFacts,
): void {
  for (let at = 0; at <= width + 1e-6; at += repeat.widthMm)
    page.rule(x + at, top - 2.4, x + at, top - 0.6, INK, 0.2);
  for (let at = 0; at <= height + 1e-6; at += repeat.heightMm)
    page.rule(x - 2.4, top + at, x - 0.6, top + at, INK, 0.2);
}

function drawRuler(page: Page, x: number, y: number): number {
  const length = Math.min(RULER, Math.floor(page.measure / 10) * 10);
  page.rule(x, y, x + length, y, INK, 0.2);
  for (let mm = 0; mm <= length; mm++) {
    const long = mm % 10 === 0 ? 3 : mm % 5 === 0 ? 2.1 : 1.3;
    page.rule(x + mm, y, x + mm, y + long, INK, mm % 10 === 0 ? 0.2 : 0.12);
    if (mm % 10 === 0) {
      const words = mm === length ? `${mm} mm` : `${mm}`;
      page.line(words, x + mm, y + 5.9, { size: 6.5, colour: QUIET }, 'centre');
    }
  }
  return y + 10.4;
}
