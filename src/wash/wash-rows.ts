import { fractalOnPixels } from '../field/footprint.ts';
import { addFractalRow, type FractalNoise } from '../field/fractal.ts';
import { addBilinearRow } from '../field/periodic.ts';
import { fractalVariance, SHARE_LAST, SHARE_MIDDLE, SHARE_SCALE, SHARES } from '../field/share.ts';
import { openGrain } from './grain.ts';
import type { Wash } from './lay-wash.ts';

/** What rows of a wash are worked out with; `load` and `parted` hold the row that was asked for last. */
export interface WashRows {
  /** How much paint is there, times what an even wash has, per pixel. */
  readonly load: Float64Array;
  /** How much more heavy pigment than staining is there, as a share of an even wash, per pixel. */
  readonly parted: Float64Array;
  /**
   * Works out a row of pixels.
   *
   * @param x0    mm of the first.
   * @param y     mm.
   * @param count How many, at most what was asked for.
   */
  row(x0: number, y: number, count: number): void;
}

/** How far heavy and staining paint settle, as a share of what is there, per deviation of the tooth. */
const HEAVY = 0.26;
const LIGHT = 0.1;
/** What stays where the brush skipped. */
const FILM = 0.06;
/** How softly flecks end, in deviations of the tooth. */
const SOFT = 0.3;
/** Beyond this share of the load the first order is no longer to be trusted. */
const MOST_FRAY = 0.3;

/** Opens rows of at most `most` pixels of this size. */
export function openWashRows(wash: Wash, stepX: number, stepY: number, most: number): WashRows {
  const { paper } = wash;
  const fine = (noise: FractalNoise) => fractalOnPixels(noise, stepX, stepY);
  const grain = openGrain(paper, stepX, stepY, most + 1);
  const { tooth, settled } = grain;
  const [strayX, strayY, bristles] = [fine(paper.strayX), fine(paper.strayY), fine(paper.bristles)];
  const hidden = Math.max(0, 1 - grain.shown);
  const soft = Math.sqrt(SOFT * SOFT + hidden + 0.25 * (1 - Math.min(1, fractalVariance(bristles))));
  const list = () => new Float64Array(most + 1);
  const [load, parted, across, down, heavy, settling, skipped, tracks] = Array.from({ length: 8 }, list);
  let [here, below] = [list(), list()];
  let drawn = { x0: Number.NaN, y: Number.NaN, count: 0 };
  const draw = (x0: number, y: number, count: number, row: Float64Array) =>
    addBilinearRow(wash.paint, x0, stepX, y, 1, row.fill(0), count + 1);
  const add = (noise: FractalNoise, x0: number, y: number, count: number, row: Float64Array) =>
    addFractalRow(noise, x0, stepX, y, 1, row, count);
  return {
    load,
    parted,
    row(x0, y, count) {
      if (drawn.x0 === x0 && drawn.count === count && drawn.y === y) [here, below] = [below, here];
      else draw(x0, y, count, here);
      draw(x0, y + stepY, count, below);
      drawn = { x0, y: y + stepY, count };
      add(strayX, x0, y, count, across.fill(0));
      add(strayY, x0, y, count, down.fill(0));
      grain.row(x0, y, count);
      addBilinearRow(wash.heavy, x0, stepX, y, 1, heavy.fill(0), count);
      addBilinearRow(wash.settling, x0, stepX, y, 1, settling.fill(0), count);
      addBilinearRow(wash.skipped, x0, stepX, y, 1, skipped.fill(0), count);
      let isSkipped = false;
      for (let i = 0; i < count && !isSkipped; i++) isSkipped = skipped[i] < 3.8;
      if (isSkipped) add(bristles, x0, y, count, tracks.fill(0));
      for (let i = 0; i < count; i++) {
        const laid = here[i];
        const most = MOST_FRAY * laid;
        const stray = (here[i + 1] - laid) * (across[i] / stepX) + (below[i] - laid) * (down[i] / stepY);
        const frayed = laid + (stray > most ? most : Math.max(stray, -most));
        // Much paint buries the tooth.
        const sunk = (settling[i] * settled[i]) / (0.7 + 0.3 * frayed);
        const much = Math.max(0, frayed * (1 + heavy[i]) * (1 + Math.max(-0.9, HEAVY * sunk)));
        const few = Math.max(0, frayed * (1 - heavy[i]) * (1 + Math.max(-0.9, LIGHT * sunk)));
        let kept = 1;
        if (skipped[i] < 3.8) {
          const z = (skipped[i] + tooth[i] + 0.5 * tracks[i]) / soft;
          const entry = (z * SHARE_SCALE + SHARE_MIDDLE) | 0;
          kept = FILM + (1 - FILM) * SHARES[entry < 0 ? 0 : Math.min(entry, SHARE_LAST)];
        }
        load[i] = 0.5 * kept * (much + few);
        parted[i] = kept * (much - few);
      }
    },
  };
}
