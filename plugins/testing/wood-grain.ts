import { type AnyLayer, type Band, boxOf, neutralLayer, parseLayout, type ValuesOf } from 'tenter';
import { openSetting } from 'tenter/render';
import wood from '../wood-grain/index.ts';
import type { WoodModel } from '../wood-grain/model.ts';
import { fillNodes, nodeCount, nodeGrid } from '../wood-grain/nodes.ts';
import { paintWood } from '../wood-grain/paint.ts';
import type { PARAMETERS } from '../wood-grain/parameters.ts';
import type { RingTable } from '../wood-grain/rings.ts';

export type Given = Partial<ValuesOf<typeof PARAMETERS>>;

/** A model, and what prepare reported by name. */
export function prepared(layout: string, width: number, height: number, parameters: Given, seed = 'test') {
  const box = boxOf({ layout: parseLayout(layout), width, height });
  const { setting, reports } = openSetting(wood, { box, seed, parameters });
  const model = wood.prepare(setting as never) as WoodModel;
  return { model, box, figures: new Map(reports.map(({ name, value }) => [name, Number(value)])) };
}

/** Both planes of a rectangle of pixels. */
export function painted(model: WoodModel, band: Band): Required<Pick<AnyLayer, 'tint' | 'shade'>> {
  const layer = neutralLayer(['tint', 'shade'], band.width, band.height);
  paintWood(model, band, layer);
  return { tint: layer.tint!, shade: layer.shade! };
}

/** A band of square pixels. */
export function bandOf(x: number, y: number, width: number, height: number, mm: number): Band {
  return { x, y, width, height, mmPerPixelX: mm, mmPerPixelY: mm };
}

/**
 * One bare piece of wood whose radius is a given function and whose red IS the tone: no fibres, pores,
 * rays or joints.
 */
export function bareModel(
  width: number,
  length: number,
  radius: (u: number, v: number) => number,
  rings: RingTable,
): WoodModel {
  const { model } = prepared('straight', width, length, { pores: 0, rays: 0, joint: 0, relief: 0 });
  const grid = nodeGrid(0, width, length, 2.5, 5);
  const field = () => new Float32Array(nodeCount(grid));
  const nodes = { radius: field(), wash: field(), drift: field(), ray: new Float32Array(0) };
  fillNodes(nodes, grid, (u, v, out) => {
    out.radius = radius(u, v);
  });
  const edge = (at: number) => ({ at, wave: -1, shift: 0 });
  const toneAsRed = Float64Array.from([0, 1, 0, 0, 1, 0, 0, 1, 0]);
  return {
    ...model,
    rings,
    nodes,
    lattice: { ax: width, ay: 0, bx: 0, by: length },
    pieces: [{ grid, detailU: 0, detailV: 0, knots: [], colours: toneAsRed }],
    placements: [
      {
        piece: 0,
        left: edge(0),
        right: edge(width),
        top: 0,
        bottom: length,
        offsetU: 0,
        offsetV: 0,
        hasTopJoint: false,
        hasBottomJoint: false,
        hasSideJoints: false,
      },
    ],
    fibreReach: 0,
    look: { ...model.look, jitter: 0, fibre: 0, fibreTone: 0, halfJoint: 0 },
  };
}
