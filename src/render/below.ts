import type { Band } from '../effect/effect.ts';
import { type AnyLayer, READABLE_PLANES, reuseLayer } from '../effect/layer.ts';
import type { StepPainter } from './step-painter.ts';

/** Room for what the steps of a pass come to, for those of them that read. */
export interface BelowStore {
  /** Neutral planes over a band and as much around it as any step reads; none where no step does. */
  open(band: Band): AnyLayer | undefined;
}

export function openBelow(painters: readonly StepPainter[]): BelowStore {
  const readers = painters.filter(({ step }) => step.reads.length > 0);
  const planes = READABLE_PLANES.filter((name) => readers.some(({ step }) => step.reads.includes(name)));
  const margin = Math.max(0, ...readers.map((painter) => painter.margin.painted));
  let store: AnyLayer = { width: 0, height: 0 };
  return {
    open({ width, height }) {
      if (readers.length === 0) return undefined;
      store = reuseLayer(store, planes, width + 2 * margin, height + 2 * margin);
      return store;
    },
  };
}
