import type { Level } from './way.ts';

/** A level has at least so many samples a side, if the swatch has. */
const LEAST_SIDE = 8;

/** The swatch, then half, a quarter, ... of its density: what is seen of it from further and further away. */
export function pyramidOf(swatch: Level): Level[] {
  const levels = [swatch];
  for (let level = swatch; Math.min(level.width, level.height) >= 2 * LEAST_SIDE; ) {
    level = halved(level);
    levels.push(level);
  }
  return levels;
}

/** The most samples of a level that is looked at as a whole. */
const MOST_SAMPLES = 256 * 256;

/** The finest level that is small enough to be looked at as a whole; the coarsest where none is. */
export function wholeOf(levels: readonly Level[]): Level {
  return levels.find(({ width, height }) => width * height <= MOST_SAMPLES) ?? levels[levels.length - 1];
}

/** The means of two by two samples; an odd last row or column is left out, so that samples stay where they were. */
export function halved({ width, height, mmPerSample, planes }: Level): Level {
  const [across, down] = [width >> 1, height >> 1];
  return {
    width: across,
    height: down,
    mmPerSample: 2 * mmPerSample,
    planes: planes.map((plane) => {
      const means = new Float32Array(across * down);
      for (let j = 0, to = 0; j < down; j++) {
        for (let i = 0, from = 2 * j * width; i < across; i++, from += 2, to++) {
          means[to] = (plane[from] + plane[from + 1] + plane[from + width] + plane[from + width + 1]) / 4;
        }
      }
      return means;
    }),
  };
}
