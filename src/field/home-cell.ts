/**
 * The column (or row) of cells that a place in the box stands in. The box ends before its far edge, but
 * the quotient of a place just before it may round onto the count of cells.
 *
 * @param place 0 <= place < count * mmPerCell, mm.
 */
export function homeCell(place: number, mmPerCell: number, count: number): number {
  return Math.min(count - 1, Math.floor(place / mmPerCell));
}
