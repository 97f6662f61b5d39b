/** Pixels of a band: few enough for its planes (tens of bytes each) to stay small, enough to pay the call. */
const BAND_PIXELS = 1 << 18;

/** How many rows each band of a frame has. Depends on the frame alone, never on the number of workers. */
export function bandRowsFor(width: number, height: number): number {
  return Math.min(height, Math.max(8, Math.floor(BAND_PIXELS / width)));
}
