/** How swatches stand on a sheet; px. */
export interface SheetShape {
  /** Of a swatch. */
  readonly side: number;
  readonly columns: number;
  /** At most, on one sheet. */
  readonly rows: number;
}

/** A tile's own sheet looks closer than the sheet of the whole collection. */
export const TILE_SHEET: SheetShape = { side: 432, columns: 4, rows: 5 };
export const COLLECTION_SHEET: SheetShape = { side: 280, columns: 6, rows: 7 };

export const MARGIN = 64;
export const GAP = 32;
/** Above the first row. */
export const HEADING = 150;
/** Under a swatch, and under that before the next row. */
export const CAPTION = 158;
export const ROW_GAP = 34;

/** Where swatch `index` of a sheet stands: its upper left corner. */
export function placeOf({ side, columns }: SheetShape, index: number): { x: number; y: number } {
  const [column, row] = [index % columns, Math.floor(index / columns)];
  return {
    x: MARGIN + column * (side + GAP),
    y: MARGIN + HEADING + row * (side + CAPTION + ROW_GAP),
  };
}

/** The size of a sheet that holds `count` swatches; as wide as if it were full. */
export function sizeOf({ side, columns }: SheetShape, count: number): { width: number; height: number } {
  const rows = Math.max(1, Math.ceil(count / columns));
  return {
    width: 2 * MARGIN + columns * side + (columns - 1) * GAP,
    height: 2 * MARGIN + HEADING + rows * (side + CAPTION) + (rows - 1) * ROW_GAP,
  };
}
