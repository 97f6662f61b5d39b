import type { AnyLayer, Band } from 'tenter';
import { layPlanes } from './laying.ts';
import type { SwatchModel } from './model.ts';
import { paintGrown } from './ways.ts';

/** Grows the swatch over a band and puts it into the plane that it is laid as. */
export function paintSwatch({ layAs, strength, grown }: SwatchModel, band: Band, layer: AnyLayer): void {
  const count = band.width * band.height;
  const planes = Array.from({ length: layAs === 'colour' ? 3 : 1 }, () => new Float32Array(count));
  paintGrown(grown, band, planes);
  layPlanes(layAs, strength, planes, layer);
}
