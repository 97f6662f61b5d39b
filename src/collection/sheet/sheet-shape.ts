/** How swatches stand on a sheet; px. */
export interface SheetShape {
  /** Of a swatch. */
  readonly side: number;
  readonly columns: number;
  /** At most, on one sheet. */
  readonly rows: number;
}

/** A tile's own sheet looks closer than the sheet of the whole collection. */
export const TILE_SHEET: SheetShape = { side: 340, columns: 5, rows: 4 };
export const COLLECTION_SHEET: SheetShape = { side: 280, columns: 6, rows: 6 };

/** What a sheet's file says of its size, px per inch: either kind is some 276 mm wide, for A3 paper. */
export const SHEET_DPI = 180;

export const MARGIN = 64;
export const GAP = 32;
/** Between a swatch and its caption, and under that before the next row. */
export const CAPTION_GAP = 12;
export const ROW_GAP = 40;

/** Either side of a sheet is so wide, however few swatches it holds. */
export function widthOf({ side, columns }: SheetShape): number {
  return 2 * MARGIN + columns * side + (columns - 1) * GAP;
}
