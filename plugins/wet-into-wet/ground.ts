import { addFractalRow, type Box, type FractalNoise, type Sheet } from 'tenter';
import type { Noise } from './fields.ts';
import { lapAt, type Wave, waveNear } from './laps.ts';
import type { Values } from './parameters.ts';

/** How far apart the laps of the brush lie, mm. */
const LAP = 52;

/** Noises of the first wash, by what they vary. */
export interface Ground {
  readonly noises: Readonly<Record<Varied, FractalNoise>>;
  readonly laps?: Wave;
}

const VARIED = ['clouds', 'sheet', 'sway', 'shown', 'streaks'] as const;
type Varied = (typeof VARIED)[number];

export function groundOf(values: Values, box: Box, noise: Noise): Ground {
  const wide = Math.min(box.width, box.height);
  const side = (mm: number) => Math.min(mm, 0.6 * wide);
  const drawn = (along: number, across: number, direction: number) => ({
    along: side(along),
    across: side(across),
    direction,
  });
  const aside = values.downhill + 90;
  return {
    noises: {
      clouds: noise('clouds', drawn(80 * (1 + 0.6 * values.tilt), 80, values.downhill), {
        octaves: 4,
        gain: 0.5,
      }),
      sheet: noise('sheet', drawn(110, 95, aside), { octaves: 3, gain: 0.55 }),
      sway: noise('sway', drawn(110, 70, aside), { octaves: 3, gain: 0.5 }),
      shown: noise('shown', drawn(110, 50, aside), { octaves: 2, gain: 0.5 }),
      streaks: noise('streaks', drawn(36, 5, aside), { octaves: 2, gain: 0.7 }),
    },
    laps: waveNear(box.lattice, (values.downhill * Math.PI) / 180, LAP),
  };
}

/** Lays the first wash: water still standing in some passages and gone from others, paint in laps of the brush. */
export function layGround(sheet: Sheet, values: Values, { noises, laps }: Ground): void {
  const { shape, water, paper, air, afloat, settled } = sheet;
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const rows = Object.fromEntries(VARIED.map((name) => [name, new Float64Array(width)]));
  const { clouds, sheet: wet, sway, shown, streaks } = rows as Record<Varied, Float64Array>;
  const afloatShare = Math.min(0.9, 0.3 + 0.45 * values.backrun);
  for (let j = 0; j < height; j++) {
    const y = (j + 0.5) * mmPerCellY;
    for (const name of VARIED) {
      rows[name].fill(0);
      addFractalRow(noises[name], mmPerCellX / 2, mmPerCellX, y, 1, rows[name], width);
    }
    for (let i = 0, k = j * width; i < width; i++, k++) {
      const film = -0.55 + 3.2 * values.wetness + 1.05 * Math.min(1, 2 * values.clouds) * wet[i];
      water[k] = Math.max(0.3 * paper.capacity[k], paper.capacity[k] + Math.min(film, 3.4));
      air[k] = Math.exp(-0.2 * wet[i]);
      const turns = laps ? laps.x * (i + 0.5) * mmPerCellX + laps.y * y + 0.3 * sway[i] : 0;
      const lap = laps ? Math.max(0, 0.5 + 0.6 * shown[i]) * (lapAt(turns) - 0.3) : 0;
      const cloud = values.clouds * (0.42 * clouds[i] + 0.3 * lap);
      const laid = Math.exp(cloud + 0.04 * values.clouds * streaks[i]);
      afloat.amount[k] = laid * afloatShare;
      settled.amount[k] = laid * (1 - afloatShare);
    }
  }
}
