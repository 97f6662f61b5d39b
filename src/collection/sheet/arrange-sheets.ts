import { type CaptionRules, captionOf, LEAST_LETTERS, originalCaption, type Paragraph } from './caption.ts';
import { LETTERS, QUIET } from './inks.ts';
import type { Legend } from './legend.ts';
import { heightOf } from './paragraphs.ts';
import { CAPTION_GAP, GAP, MARGIN, ROW_GAP, type SheetShape, widthOf } from './sheet-shape.ts';
import type { Swatch } from './swatch.ts';

/** A swatch in its place on a sheet, or the artwork that it and those after it were made from. */
export interface Placed {
  readonly swatch: Swatch;
  readonly isOriginal: boolean;
  readonly caption: readonly Paragraph[];
  /** The upper left corner of its picture, px. */
  readonly x: number;
  readonly y: number;
}

/** One sheet, down to the pixel. */
export interface Arrangement {
  readonly width: number;
  readonly height: number;
  readonly placed: readonly Placed[];
  /** At the foot: the settings of the sheet's recipes. */
  readonly legend: readonly Paragraph[];
  readonly legendTop: number;
}

type Unplaced = Omit<Placed, 'x' | 'y'>;

/**
 * Arranges swatches on as many sheets as they need. The artwork stands before the first of its
 * renders, and again on every further sheet.
 *
 * @param top Where the first row begins, px.
 */
export function arrangeSheets(
  swatches: readonly Swatch[],
  shape: SheetShape,
  rules: CaptionRules,
  legend: Legend,
  top: number,
): Arrangement[] {
  const sheets = shared(swatches, shape.columns * shape.rows, rules);
  return sheets.map((sheet) => arrange(sheet, shape, legend, top));
}

/** What stands on each sheet. */
function shared(swatches: readonly Swatch[], most: number, rules: CaptionRules): Unplaced[][] {
  const sheets: Unplaced[][] = [];
  let last: string | undefined;
  for (const swatch of swatches) {
    const own: Unplaced = { swatch, isOriginal: false, caption: captionOf(swatch, rules) };
    const original: Unplaced = { swatch, isOriginal: true, caption: originalCaption(swatch, rules) };
    const key = swatch.original?.key;
    const wanted = key !== undefined && key !== last ? [original, own] : [own];
    const sheet = sheets.at(-1);
    if (sheet && sheet.length + wanted.length <= most) sheet.push(...wanted);
    else sheets.push(key === undefined ? [own] : [original, own]);
    last = key;
  }
  return sheets;
}

function arrange(sheet: readonly Unplaced[], shape: SheetShape, legend: Legend, top: number): Arrangement {
  const { side, columns } = shape;
  const placed: Placed[] = [];
  let y = top;
  for (let first = 0; first < sheet.length; first += columns) {
    const row = sheet.slice(first, first + columns);
    placed.push(...row.map((one, column) => ({ ...one, x: MARGIN + column * (side + GAP), y })));
    const caption = Math.max(...row.map((one) => heightOf(one.caption, side)));
    y += side + CAPTION_GAP + caption + ROW_GAP;
  }
  const width = widthOf(shape);
  const words = legendWords(sheet, legend);
  return {
    width,
    height: y + heightOf(words, width - 2 * MARGIN) - (words.length > 0 ? 0 : ROW_GAP) + MARGIN,
    placed,
    legend: words,
    legendTop: y,
  };
}

function legendWords(sheet: readonly Unplaced[], { entries }: Legend): Paragraph[] {
  const recipes = new Set(sheet.map(({ swatch }) => swatch.labels.recipe ?? swatch.name));
  const words = entries
    .filter(({ recipe, settings }) => recipes.has(recipe) && settings !== '')
    .flatMap(({ recipe, settings }): Paragraph[] => [
      { text: recipe, height: LEAST_LETTERS, weight: 500, ink: LETTERS },
      { text: settings, height: LEAST_LETTERS, weight: 400, ink: QUIET },
    ]);
  if (words.length === 0) return [];
  return [{ text: 'Settings of the recipes', height: 22, weight: 500, ink: LETTERS }, ...words];
}
