import type { Level } from './way.ts';

/** A swatch is no smaller than this, mm and samples a side: of smaller ones no pieces could be taken. */
const LEAST = 5;
const LEAST_SAMPLES = 16;

/** A swatch that is too small to take pieces from, with its mirrored copies beside it. */
export function enlarged(level: Level): Level {
  const { width, height, mmPerSample, planes } = level;
  const least = Math.max(LEAST_SAMPLES, Math.ceil(LEAST / mmPerSample));
  const across = Math.max(width, least);
  const down = Math.max(height, least);
  if (across === width && down === height) return level;
  const columns = mirrored(width, across);
  const rows = mirrored(height, down);
  return {
    width: across,
    height: down,
    mmPerSample,
    planes: planes.map((plane) => {
      const copy = new Float32Array(across * down);
      for (let j = 0, k = 0; j < down; j++) {
        for (let i = 0; i < across; i++, k++) copy[k] = plane[rows[j] * width + columns[i]];
      }
      return copy;
    }),
  };
}

/** Which of `count` samples stands at each place, where every second copy is mirrored. */
function mirrored(count: number, places: number): Int32Array {
  return Int32Array.from({ length: places }, (_, place) => {
    const at = place % (2 * count);
    return at < count ? at : 2 * count - 1 - at;
  });
}
