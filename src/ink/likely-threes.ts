import { LEVELS } from './eye-metric.ts';
import type { ColourUnmixer } from './unmix-colour.ts';

/** Levels to a side of a cell of the colour cube: four bytes, which is less than a pair reaches. */
const CELL = 16;
const SIDE = Math.floor(LEVELS / CELL) + 1;
const CORNERS = SIDE + 1;
const MOST = 8;
/** Above every place in the list of threes (24 inks have 2,024). */
const UNKNOWN = 0xffff;

/** The threes that may tell a colour best. */
export interface LikelyThrees {
  /** For `ColourUnmixer.choose`: `count` places from `at` on in `list`. */
  readonly list: Uint16Array;
  readonly at: number;
  readonly count: number;
  /** Looks them up for a colour, levels of the eye's metric. The colour that the unmixer is aimed at may change. */
  find(red: number, green: number, blue: number): void;
}

/**
 * Which threes are worth trying, by cells of the colour cube: those that win at one of a cell's eight corners, and in
 * a cell that an ink touches all threes that hold this ink and win somewhere near. Cells are filled when they are
 * first asked for; what is in one depends on nothing but its place.
 */
export function createLikelyThrees(unmixer: ColourUnmixer, colours: Float64Array): LikelyThrees {
  const corners = new Uint16Array(CORNERS ** 3).fill(UNKNOWN);
  const list = new Uint16Array((MOST + 1) * SIDE ** 3);
  const counts = new Uint8Array(SIDE ** 3);
  const ownThrees = Array.from({ length: colours.length / 3 }, (_, ink) => {
    const [red, green, blue] = [0, 1, 2].map((channel) => Math.round(LEVELS * colours[3 * ink + channel]));
    return { red, green, blue };
  });

  const cornerAt = (x: number, y: number, z: number): number => {
    const place = (x * CORNERS + y) * CORNERS + z;
    if (corners[place] === UNKNOWN) {
      unmixer.aim(Math.min(LEVELS, x * CELL), Math.min(LEVELS, y * CELL), Math.min(LEVELS, z * CELL));
      corners[place] = unmixer.search() / 3;
    }
    return corners[place];
  };

  const fill = (cell: number, x: number, y: number, z: number): void => {
    const found = new Set<number>();
    for (const { red, green, blue } of ownThrees) {
      const isNear = [red - x * CELL, green - y * CELL, blue - z * CELL].every(
        (off) => off >= -CELL && off <= 2 * CELL,
      );
      if (!isNear) continue;
      unmixer.aim(red, green, blue);
      found.add(unmixer.search() / 3);
    }
    for (let corner = 0; corner < 8; corner++)
      found.add(cornerAt(x + (corner & 1), y + ((corner >> 1) & 1), z + (corner >> 2)));
    const kept = [...found].slice(0, MOST + 1);
    counts[cell] = kept.length;
    kept
      .sort((a, b) => a - b)
      .forEach((three, index) => {
        list[(MOST + 1) * cell + index] = 3 * three;
      });
  };

  const likely = {
    list,
    at: 0,
    count: 0,
    find(red: number, green: number, blue: number) {
      const x = (red / CELL) | 0;
      const y = (green / CELL) | 0;
      const z = (blue / CELL) | 0;
      const cell = (x * SIDE + y) * SIDE + z;
      if (counts[cell] === 0) fill(cell, x, y, z);
      likely.at = (MOST + 1) * cell;
      likely.count = counts[cell];
    },
  };
  return likely;
}
