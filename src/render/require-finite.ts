import type { Band } from '../effect/effect.ts';
import { isFinitePlane } from '../effect/finite-plane.ts';
import { type AnyLayer, PLANE_CHANNELS, type PlaneName } from '../effect/layer.ts';

/**
 * Refuses a layer with numbers that are none: laid over a tile they would come out black, and a black
 * tile closes.
 *
 * @throws TypeError that names the plane and the pixel.
 */
export function requireFinite(layer: AnyLayer, planes: readonly PlaneName[], band: Band): void {
  for (const name of planes) {
    const plane = layer[name];
    if (!plane || isFinitePlane(plane)) continue;
    const at = plane.findIndex((value) => !Number.isFinite(value));
    const pixel = Math.floor(at / PLANE_CHANNELS[name]);
    const x = band.x + (pixel % band.width);
    const y = band.y + Math.floor(pixel / band.width);
    throw new TypeError(
      `${plane[at]} in the plane ${name} at pixel (${x}, ${y}); every number has to be finite (a misspelt name gives NaN: let your editor check the types)`,
    );
  }
}
