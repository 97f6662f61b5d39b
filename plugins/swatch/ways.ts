import type { Band } from 'tenter';
import { EVEN } from './even/index.ts';
import { figured } from './figured/index.ts';
import type { Grown } from './model.ts';
import type { Prepared } from './way.ts';

export function grow(way: Grown['way'], prepared: Prepared): Grown {
  return way === 'even' ? { way, model: EVEN.prepare(prepared) } : { way, model: figured.prepare(prepared) };
}

export function paintGrown(grown: Grown, band: Band, planes: readonly Float32Array[]): void {
  if (grown.way === 'even') EVEN.paint(grown.model, band, planes);
  else figured.paint(grown.model, band, planes);
}

/** mm between the two nearest places with the same piece of the swatch. */
export function comesBack(grown: Grown): number {
  return grown.way === 'even' ? EVEN.comesBack(grown.model) : figured.comesBack(grown.model);
}
