/** What dye lets through, looked up by how much of it there is. */
export interface DyeTable {
  /** Three encoded channels per entry, `TABLE_SCALE` entries per unit of dye. */
  readonly glaze: Float32Array;
  /** What a crack full of dye takes away of each channel. */
  readonly full: readonly [number, number, number];
}

export const TABLE_SCALE = 512;
export const TABLE_LAST = 1535;
/** No dye is quite black: its logarithm must exist. */
const DARKEST = 0.02;

/** The dye as glazes of growing depth: its colour raised to the amount (the law of Beer and Lambert). */
export function dyeTable(dye: readonly [number, number, number], strength: number): DyeTable {
  const glaze = new Float32Array(3 * (TABLE_LAST + 1));
  for (let k = 0; k <= TABLE_LAST; k++) {
    for (let c = 0; c < 3; c++) {
      glaze[3 * k + c] = Math.max(DARKEST, dye[c]) ** ((strength * k) / TABLE_SCALE);
    }
  }
  const taken = (c: number) => strength * (1 - dye[c]);
  return { glaze, full: [taken(0), taken(1), taken(2)] };
}
