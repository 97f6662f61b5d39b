import {
  addBilinearRow,
  addFractalRow,
  type Box,
  bicubicAt,
  type FieldShape,
  type FractalNoise,
  type PeriodicField,
  type Wash,
} from 'tenter';
import { bake, type Noise, roundCell } from './fields.ts';
import type { Flood } from './flooded.ts';
import { touchedAt } from './touched.ts';

/** mm that filaments of the wash, and of what is touched in, run ahead of the rest. */
const FINGER = 3.4;
const TOUCHED_FINGER = 4;
/** mm that billows and the paper move the front of what is touched in. */
const BILLOW = 3.4;
const FRAYED = 0.3;
/** How much of the brush is lost where the sheet was wettest. */
const LOST = 0.35;

/** A row of everything that a ground is made of, one number per cell. */
export interface GroundRows {
  /** Logarithm of the paint that the flow left, its filaments run ahead; and its slope, per mm. */
  readonly here: Float32Array;
  readonly steep: Float32Array;
  /** How much of the brush is kept, and what it laid. */
  readonly kept: Float32Array;
  readonly paint: Float32Array;
  readonly weighed: Float32Array;
  /** Noises of deviation 1. */
  readonly found: Float32Array;
  readonly lobe: Float32Array;
  readonly fray: Float32Array;
  readonly clump: Float32Array;
  readonly silt: Float32Array;
  readonly streak: Float32Array;
  /** Shares, 0..1. */
  readonly pace: Float32Array;
  readonly stood: Float32Array;
  /** Where currents left filaments. */
  readonly feathered: Float32Array;
  /** Logarithm of what the artwork's own paint did. */
  readonly ran: Float32Array;
  /** Works out row j, after row j - 1. */
  go(j: number, brushwork: number): void;
  /** Paint that was touched in, on cell i of row j, where `go` is. */
  touchedAt(i: number, j: number): number;
}

export function openRows(
  flood: Flood,
  streaks: PeriodicField,
  wash: Wash | undefined,
  tooth: number,
  { width, mmPerCellX: mmX, mmPerCellY: mmY }: FieldShape,
  box: Box,
  noise: Noise,
): GroundRows {
  const row = () => new Float32Array(width + 1);
  const [steep, kept, paint, weighed, found, lobe, fray, clump, silt] = Array.from({ length: 9 }, row);
  const [stood, ran, lost, billow] = Array.from({ length: 4 }, row);
  const here = row();
  const { stream } = flood;
  const shores = bake(box, 2, noise('found shores', roundCell(46), { octaves: 2, gain: 0.6 }));
  const places = feathered(bake(box, 2, noise('feathered places', roundCell(26), { octaves: 2, gain: 0.6 })));
  const lobes = noise('shore lobes', roundCell(10), { octaves: 2, gain: 0.6 });
  const frays = noise('shore fray', roundCell(2.4), { octaves: 2, gain: 0.55 });
  const billows = noise('billows', roundCell(17), { octaves: 3, gain: 0.6 });
  const flocks = { along: 2.6 * tooth, across: 2.1 * tooth, direction: 12 };
  const clumps = noise('clumps', flocks, { octaves: 2, gain: 0.75 });
  const fill = (field: PeriodicField, to: Float32Array, y: number) =>
    addBilinearRow(field, mmX / 2, mmX, y, 1, to.fill(0), width + 1);
  const draw = (of: FractalNoise, to: Float32Array, y: number) =>
    addFractalRow(of, mmX / 2, mmX, y, 1, to.fill(0), width);
  // The slope asks for the row below: each row is worked out once, and then moves up.
  const open = () => ({
    depth: row(),
    alongX: row(),
    alongY: row(),
    pace: row(),
    streak: row(),
    place: row(),
  });
  let [now, next] = [open(), open()];
  const run = (to: typeof now, y: number) => {
    fill(stream.x, to.alongX, y);
    fill(stream.y, to.alongY, y);
    fill(stream.pace, to.pace, y);
    fill(streaks, to.streak, y);
    fill(places, to.place, y);
    for (let i = 0; i <= width; i++) {
      const ahead = FINGER * to.pace[i] * to.place[i] * to.streak[i];
      to.depth[i] = bicubicAt(flood.base, (i + 0.5) * mmX - ahead * to.alongX[i], y - ahead * to.alongY[i]);
    }
  };
  run(next, mmY / 2);
  const [pace, streak, place] = [row(), row(), row()];
  return {
    ...{ here, steep, kept, paint, weighed, found, lobe, fray, clump, silt },
    ...{ streak, pace, stood, feathered: place, ran },
    go(j, brushwork) {
      const y = (j + 0.5) * mmY;
      [now, next] = [next, now];
      run(next, y + mmY);
      here.set(now.depth);
      pace.set(now.pace);
      streak.set(now.streak);
      place.set(now.place);
      fill(flood.lost, lost, y);
      fill(flood.silt, silt, y);
      fill(flood.stood, stood, y);
      fill(shores, found, y);
      if (flood.feathered) fill(flood.feathered, ran, y);
      if (wash) fill(wash.paint, paint, y);
      if (wash) fill(wash.heavy, weighed, y);
      draw(lobes, lobe, y);
      draw(frays, fray, y);
      draw(clumps, clump, y);
      if (flood.touched) draw(billows, billow, y);
      for (let i = 0; i < width; i++) {
        const [slopeX, slopeY] = [(here[i + 1] - here[i]) / mmX, (next.depth[i] - here[i]) / mmY];
        steep[i] = Math.sqrt(slopeX * slopeX + slopeY * slopeY);
        kept[i] = brushwork * (1 - LOST * lost[i]);
      }
    },
    touchedAt(i, j) {
      const fingers = TOUCHED_FINGER * (0.3 + 0.7 * place[i]) * pace[i] * streak[i];
      const ahead = fingers + BILLOW * (Math.abs(billow[i]) - 0.75) + FRAYED * fray[i];
      const [x, y] = [(i + 0.5) * mmX - ahead * now.alongX[i], (j + 0.5) * mmY - ahead * now.alongY[i]];
      return touchedAt(bicubicAt(flood.touched!, x, y), streak[i], lost[i], pace[i]);
    },
  };
}

/** Where currents left filaments, 0..1, of a noise. */
function feathered(noise: PeriodicField): PeriodicField {
  return { ...noise, values: noise.values.map((value) => Math.max(0, Math.min(1, 0.4 + 0.5 * value))) };
}
