import { latticeNoise, noiseAt, type RandomStream } from 'tenter';
import { clampNormal, type WoodSetting } from './boards.ts';
import { columnsOver } from './columns.ts';
import type { GrainSample } from './nodes.ts';
import type { Layout, PieceDraft } from './piece.ts';
import { endlessColumns } from './strips.ts';
import { closedWave, waveAt } from './waves.ts';

/**
 * Book-matched leaves: sheets sliced one after another from one log, every second turned over like
 * the page of a book, so that pairs mirror one another at their joint.
 */
export function layLeaves(setting: WoodSetting): Layout {
  const { parameters, box } = setting;
  const isAcross = parameters.direction === 'across';
  const random = setting.random('leaves');
  const columns = columnsOver(box, isAcross, parameters.boardWidth, true, 0.5);
  setting.report({ name: 'leaf width', value: columns.width, unit: 'mm', asked: parameters.boardWidth });
  setting.report({ name: 'leaves across', value: columns.count, unit: 'count' });
  const along = Math.max(1, Math.round((0.055 * parameters.figure * columns.period) / parameters.ringWidth));
  setting.report({ name: 'rings along', value: along, unit: 'count' });
  const drafts: PieceDraft[] = [];
  for (let id = 0; id < columns.distinct; id += 2) {
    const leaf = sliceLeaf(setting, columns.width, columns.period, along, random);
    drafts.push(leaf, turnOver(leaf));
  }
  return { ...endlessColumns(columns, drafts, [], true), ringPeriod: along };
}

/** The field of one leaf; it comes back after `period` mm along the grain, `along` rings further on. */
function sliceLeaf(
  { parameters }: WoodSetting,
  width: number,
  period: number,
  along: number,
  random: RandomStream,
): PieceDraft {
  const { figure, variation, cut, ringWidth } = parameters;
  const lattice = { ax: 8 * width + 400, ay: 0, bx: 0, by: period };
  const noise = (across: number, length: number) => {
    const field = latticeNoise(lattice, { along: across, across: length }, random);
    return (u: number, v: number) => 4.6 * noiseAt(field, u, v);
  };
  const [broad, middle, small] = [noise(34, 190), noise(17, 80), noise(8, 45)];
  const [wash, washFine, ripple] = [noise(28, 260), noise(6, 110), noise(60, 34)];
  const gain = ((random.next() < 0.5 ? -1 : 1) * along * ringWidth) / period;
  const bow = closedWave(period, 300, 4, 1.6 * figure, random);
  const sweep = closedWave(period, 600, 3, 1.3 * figure, random);
  const pith = cut === 'plain' ? width * random.between(0.1, 0.5) : width + random.between(45, 90);
  const lean = { plain: 0, rift: 45, quarter: 87 }[cut];
  const depth = cut === 'plain' ? random.between(9, 26) : pith / Math.tan((lean * Math.PI) / 180);
  const start = random.between(0, 40);
  return {
    width,
    length: period,
    multipleU: 1,
    multipleV: 1,
    detailU: 0,
    detailV: 0,
    knots: [],
    lightness: 0.02 * variation * clampNormal(random),
    warmth: 0.2 * variation * clampNormal(random),
    field: (u, v, out) => {
      const x = u - pith - waveAt(sweep, v);
      const deep = Math.max(4, depth + waveAt(bow, v));
      const lumps = figure * (0.75 * broad(u, v) + 0.45 * middle(u, v) + 0.16 * small(u, v));
      out.radius = Math.sqrt(x * x + deep * deep) + gain * v + lumps + start;
      out.drift = -waveAt(sweep, v) - 1.2 * figure * broad(u + 200, v);
      out.wash = variation * (0.05 * wash(u, v) + 0.022 * washFine(u, v));
      out.ray = Math.hypot(pith, depth) * Math.atan2(x, deep + 2.2 * ripple(u, v));
    },
  };
}

/** The leaf seen from its other side. */
function turnOver(leaf: PieceDraft): PieceDraft {
  return {
    ...leaf,
    field: (u, v, out: GrainSample) => {
      leaf.field(leaf.width - u, v, out);
      out.drift = -out.drift;
      out.ray = -out.ray;
    },
  };
}
