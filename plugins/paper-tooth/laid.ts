import type { Box } from 'tenter';

/** The mould's wires: so many laid lines down the box and chain lines across it. */
export interface Wires {
  /** Laid lines per mm; 0 in wove paper. */
  readonly laidPerMm: number;
  readonly chainsPerMm: number;
  /** Height, by the part of the way from one chain line to the next. */
  readonly chainHeight: Float32Array;
}

export const CHAIN_STEPS = 1024;
/** mm: half the width of the furrow that a chain wire leaves, and of the shadow of pulp beside it. */
const FURROW = 0.32;
const SHADOW = 2.2;
/** Depth of the furrow and height of the shadow beside the laid lines' depth. */
const FURROW_DEPTH = 1.5;
const SHADOW_HEIGHT = 0.7;

/** The counts nearest to what is asked that close over the box. */
export function layWires({ width, height, layout }: Box, laidPerMm: number, spacing: number): Wires {
  const rows = layout.kind === 'drop' ? layout.denominator : 1;
  const columns = layout.kind === 'brick' ? layout.denominator : 1;
  const laid = laidPerMm > 0 ? Math.max(1, Math.round((height * laidPerMm) / rows)) * rows : 0;
  const chains = Math.max(1, Math.round(width / spacing / columns)) * columns;
  const chainHeight = new Float32Array(CHAIN_STEPS + 1);
  for (let k = 0; k <= CHAIN_STEPS; k++) {
    const away = (k / CHAIN_STEPS - 0.5) * (width / chains);
    const furrow = FURROW_DEPTH * Math.exp(-((away / FURROW) ** 2));
    const shadow = SHADOW_HEIGHT * Math.exp(-((away / SHADOW) ** 2));
    chainHeight[k] = shadow - furrow;
  }
  return { laidPerMm: laid / height, chainsPerMm: chains / width, chainHeight };
}
