import type { Prepared, Way } from '../way.ts';
import { closedModel, isClosed } from './closed.ts';
import { comesBack } from './comes-back.ts';
import { evenPlaces, unmoved } from './even-place.ts';
import { evenTone, toneLevel } from './even-tone.ts';
import { framed } from './frame.ts';
import { grow } from './grow.ts';
import { joinsOf } from './joins.ts';
import { mapOf } from './map.ts';
import type { Model } from './model.ts';
import { paintFigured } from './paint.ts';
import { planOf } from './plan.ts';

/**
 * Figured textures: pieces of the swatch laid over the torus and joined by minimum cuts.
 *
 * A. A. Efros and W. T. Freeman, *Image Quilting for Texture Synthesis and Transfer* (2001); V. Kwatra, A. Schodl,
 * I. Essa, G. Turk and A. Bobick, *Graphcut Textures: Image and Video Synthesis Using Graph Cuts* (2003).
 */
export const figured: Way<Model> = {
  prepare: growModel,
  paint: paintFigured,
  comesBack: (model) => model.comesBack.nearest,
};

function growModel(prepared: Prepared): Model {
  if (isClosed(prepared)) return closedModel(prepared);
  const plan = planOf(prepared);
  const { shape } = plan;
  const { quilt } = grow(prepared, plan);
  const side = Math.min(plan.width, plan.height);
  const joins = joinsOf(quilt);
  const isSketch = prepared.quality === 'sketch';
  const moved = isSketch ? unmoved(shape) : evenPlaces(quilt, joins, side);
  const level = toneLevel(prepared.levels, side);
  prepared.progress(0.95);
  return {
    levels: prepared.levels,
    box: plan.box,
    width: shape.width,
    height: shape.height,
    mmPerCellX: shape.mmPerCellX,
    mmPerCellY: shape.mmPerCellY,
    closed: false,
    ...mapOf(quilt, shape),
    movedX: framed(shape, moved.x),
    movedY: framed(shape, moved.y),
    gains: level.planes.map((_, plane) => framed(shape, evenTone(quilt, joins, moved, level, plane, side))),
    comesBack: within(comesBack(quilt), plan.box.width, plan.box.height, prepared),
  };
}

/** A part of the box that is laid side by side comes back by its own sides. */
function within(
  known: Model['comesBack'],
  width: number,
  height: number,
  { box }: Prepared,
): Model['comesBack'] {
  const isPart = width < 0.99 * box.width || height < 0.99 * box.height;
  return isPart ? { ...known, nearest: Math.min(known.nearest, width, height) } : known;
}
