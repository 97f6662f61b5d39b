import type { AnyLayer, Band } from 'tenter';
import { EVEN } from './even/index.ts';
import { layPlanes } from './laying.ts';
import type { SwatchModel } from './model.ts';

export function paintSwatch(model: SwatchModel, band: Band, layer: AnyLayer): void {
  const { layAs, strength, grown } = model;
  const count = band.width * band.height;
  const planes = Array.from({ length: layAs === 'colour' ? 3 : 1 }, () => new Float32Array(count));
  EVEN.paint(grown, band, planes);
  layPlanes(layAs, strength, planes, layer);
}
