import { layBoards, type WoodSetting } from './boards.ts';
import { paletteOf, toneCurve } from './colours.ts';
import { grainLattice } from './columns.ts';
import { layLeaves } from './leaves.ts';
import type { WoodModel } from './model.ts';
import { fillNodes, type NodeGrid, type Nodes, nodeCount, nodeGrid } from './nodes.ts';
import { layPainted, PAINT_LINES } from './painted.ts';
import type { Layout } from './piece.ts';
import { poreLayer } from './pores.ts';
import { rayLayer } from './rays.ts';
import { type RingHabit, type RingTable, ringTable, toneOver } from './rings.ts';
import { fibreSheet, type SheetHabit } from './sheet.ts';
import { SPECIES } from './species.ts';
import { layVeneer } from './veneer.ts';

/** mm from node to node across and along the grain. */
const NODE_U = 2.5;
const NODE_V = 5;

const WOOD_FIBRES: SheetHabit = {
  streak: [
    { width: 0.12, length: 5, share: 0.3 },
    { width: 0.4, length: 16, share: 0.28 },
    { width: 0.9, length: 40, share: 0.22 },
    { width: 2.4, length: 90, share: 0.2 },
  ],
  jitter: [
    { width: 0.12, length: 7, share: 0.15 },
    { width: 0.35, length: 14, share: 0.3 },
    { width: 1, length: 40, share: 0.55 },
  ],
};

/** Bristles and drag leave long streaks in a glaze; the tool chatters along them. */
const PAINT_FIBRES: SheetHabit = {
  streak: [
    { width: 0.12, length: 40, share: 0.35 },
    { width: 0.4, length: 70, share: 0.35 },
    { width: 1.3, length: 120, share: 0.3 },
  ],
  jitter: [
    { width: 0.4, length: 4, share: 0.4 },
    { width: 1.2, length: 14, share: 0.6 },
  ],
};

export function prepareWood(setting: WoodSetting): WoodModel {
  const { parameters, box } = setting;
  const isPainted = parameters.construction === 'painted';
  const layout = LAY[parameters.construction](setting);
  setting.progress(0.1);
  const species = SPECIES[parameters.species];
  const hasRays = !isPainted && species.rays * parameters.rays > 0;
  const { nodes, grids } = bakeNodes(layout, hasRays, setting.progress);
  const habit: RingHabit = isPainted ? PAINT_LINES : species;
  const rings = ringsFor(setting, layout, habit, nodes.radius);
  const sheet = fibreSheet(layout.detail, isPainted ? PAINT_FIBRES : WOOD_FIBRES, setting.random('fibres'));
  setting.progress(0.9);
  const palette = paletteOf(parameters);
  const meanTone = meanToneOf(rings);
  const pores = isPainted || parameters.pores === 0 ? [] : species.pores;
  const poreRandom = setting.random('pores');
  return {
    isAcross: parameters.direction === 'across',
    lattice: grainLattice(box, parameters.direction === 'across'),
    pieces: layout.drafts.map((draft, k) => ({
      grid: grids[k],
      detailU: draft.detailU,
      detailV: draft.detailV,
      knots: draft.knots,
      colours: toneCurve(palette, parameters.contrast, meanTone, draft.lightness, draft.warmth),
    })),
    placements: layout.placements,
    waves: layout.waves,
    nodes,
    rings,
    sheet,
    fibreReach: nodes.drift.reduce((most, drift) => Math.max(most, Math.abs(drift)), 0),
    pores: pores.map((pore) => poreLayer(layout.detail, pore, poreRandom)),
    rays: hasRays ? rayLayer(layout.detail, setting.random('rays')) : null,
    look: {
      body: parameters.body,
      pore: palette.pore,
      dark: palette.dark,
      jitter: isPainted ? 0.16 : species.jitter,
      fibre: parameters.fibre * (isPainted ? 0.008 : species.fibre),
      fibreTone: parameters.fibre * (isPainted ? 0.3 : species.fibreTone),
      poreStrength: parameters.pores,
      rayStrength: species.rays * parameters.rays,
      halfJoint: parameters.joint / 2,
      relief: parameters.relief,
      meanTone,
      contrast: parameters.contrast,
    },
  };
}

const LAY = { boards: layBoards, leaves: layLeaves, veneer: layVeneer, painted: layPainted } as const;

function bakeNodes(
  layout: Layout,
  hasRays: boolean,
  progress: (done: number) => void,
): { nodes: Nodes; grids: NodeGrid[] } {
  const grids: NodeGrid[] = [];
  let total = 0;
  for (const { width, length, multipleU, multipleV } of layout.drafts) {
    const grid = nodeGrid(total, width, length, NODE_U, NODE_V, multipleU, multipleV);
    grids.push(grid);
    total += nodeCount(grid);
  }
  const nodes = {
    radius: new Float32Array(total),
    wash: new Float32Array(total),
    drift: new Float32Array(total),
    ray: new Float32Array(hasRays ? total : 0),
  };
  layout.drafts.forEach((draft, k) => {
    fillNodes(nodes, grids[k], draft.field);
    progress(0.1 + (0.7 * (k + 1)) / grids.length);
  });
  return { nodes, grids };
}

/** A table that reaches as far as the nodes do, and a little further for fibres and large pixels. */
function ringsFor(
  { parameters, random }: WoodSetting,
  layout: Layout,
  habit: RingHabit,
  radii: Float32Array,
): RingTable {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const radius of radii) {
    if (radius < low) low = radius;
    if (radius > high) high = radius;
  }
  const margin = 4;
  const rings = layout.ringPeriod || Math.ceil((high - low + 2 * margin) / parameters.ringWidth) + 1;
  return ringTable(habit, rings, parameters.ringWidth, low - margin, high + margin, random('rings'));
}

function meanToneOf(rings: RingTable): number {
  const length = (rings.integral.length - 1) / rings.perMm;
  return toneOver(rings, rings.from + length / 2, length);
}
