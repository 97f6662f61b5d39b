import { type Artwork, addBilinearRow, type FieldShape } from 'tenter';

/** Absorbance of paint, as a share of the deepest that is common: nothing to lift below, all of it from `PAINT` on. */
const BARE = 0.14;
const PAINT = 0.42;
/** The artwork is all bare, or a ground that nobody has told: salt then works everywhere. */
const FAINTEST = 0.02;
/** Of so many cells, the deepest tenth is left out of what is common. */
const SAMPLES = 4096;

/**
 * How much paint there is to be lifted on every cell, 0..1: salt on bare paper, or on a ground as pale as it, leaves
 * next to nothing.
 */
export function paintToLift(artwork: Artwork, shape: FieldShape): Float32Array | undefined {
  const depths = artwork.red.map((red, k) => {
    const light = (red + artwork.green[k] + artwork.blue[k]) / 3;
    return -Math.log10(Math.max(1e-3, 1 - artwork.alpha[k] * (1 - light)));
  });
  const deep = commonDepth(depths);
  if (deep < FAINTEST) return undefined;
  for (let k = 0; k < depths.length; k++) {
    depths[k] = Math.max(0, Math.min(1, (depths[k] / deep - BARE) / (PAINT - BARE)));
  }
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const field = { ...artwork, values: depths };
  const values = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmPerCellY;
    addBilinearRow(field, mmPerCellX / 2, mmPerCellX, y, 1, values, width, j * width);
  }
  return values;
}

function commonDepth(depths: Float32Array): number {
  const step = Math.max(1, depths.length / SAMPLES);
  const some = Float32Array.from(
    { length: Math.floor(depths.length / step) },
    (_, k) => depths[Math.floor(k * step)],
  );
  return some.sort()[Math.floor(0.9 * some.length)];
}
