import type { Prepared, Way } from '../way.ts';
import { evenTone } from './even-tone.ts';
import { framed } from './frame.ts';
import { grow } from './grow.ts';
import { mapOf } from './map.ts';
import type { Model } from './model.ts';
import { paintFigured } from './paint.ts';

/**
 * Figured textures: pieces of the swatch laid over the torus and joined by minimum cuts.
 *
 * A. A. Efros and W. T. Freeman, *Image Quilting for Texture Synthesis and Transfer* (2001); V. Kwatra, A. Schodl,
 * I. Essa, G. Turk and A. Bobick, *Graphcut Textures: Image and Video Synthesis Using Graph Cuts* (2003).
 */
export const figured: Way<Model> = {
  prepare(prepared: Prepared): Model {
    const { quilt } = grow(prepared);
    const { shape } = quilt;
    const map = mapOf(quilt, shape);
    return {
      levels: prepared.levels,
      lattice: prepared.box.lattice,
      width: shape.width,
      height: shape.height,
      mmPerCellX: shape.mmPerCellX,
      mmPerCellY: shape.mmPerCellY,
      ...map,
      gains: prepared.levels[0].planes.map((_, plane) =>
        framed(shape, evenTone(quilt, prepared.levels, plane, Math.min(prepared.width, prepared.height))),
      ),
      comesBack: Number.POSITIVE_INFINITY,
    };
  },
  paint: paintFigured,
  comesBack: ({ comesBack }) => comesBack,
};
