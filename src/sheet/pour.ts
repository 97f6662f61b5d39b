import type { PeriodicField } from '../field/periodic.ts';
import { cellIndex, type FieldShape } from '../field/periodic.ts';

/** A rough disc that something is poured on. */
export interface Spot {
  /** mm, anywhere on the plane. */
  readonly x: number;
  /** mm, anywhere on the plane. */
  readonly y: number;
  /** mm. */
  readonly radius: number;
  /** Over how many mm its edge fades. */
  readonly soft: number;
  /** How far its edge strays, as a share of the radius. */
  readonly rough: number;
}

/** Cells that something is poured on, and how fully, 0..1. */
export interface Spotted {
  readonly cells: Int32Array;
  readonly shares: Float32Array;
}

/** Ground that spots are laid on: a noise of mean 0 and deviation 1 that their edges follow, and memory. */
export interface SpotGround {
  readonly noise: PeriodicField;
  /** How full each cell is; 0 between calls. */
  readonly full: Float32Array;
}

export function spotGround(noise: PeriodicField): SpotGround {
  return { noise, full: new Float32Array(noise.values.length) };
}

/**
 * The cells of some spots together, each as full as it is in the fullest: what is poured there flows off
 * outward from all of them, not from each into the others.
 */
export function spotCells(spots: readonly Spot[], ground: SpotGround): Spotted {
  const { full } = ground;
  const touched: number[] = [];
  for (const spot of spots) addSpot(spot, ground, touched);
  const cells = Int32Array.from(touched);
  const shares = new Float32Array(cells.length);
  for (let k = 0; k < cells.length; k++) {
    shares[k] = full[cells[k]];
    full[cells[k]] = 0;
  }
  return { cells, shares };
}

function addSpot({ x, y, radius, soft, rough }: Spot, { noise, full }: SpotGround, touched: number[]): void {
  const { mmPerCellX, mmPerCellY, values } = noise;
  const far = radius * (1 + 2 * rough) + 0.5 * soft;
  const [left, right] = [Math.floor((x - far) / mmPerCellX), Math.ceil((x + far) / mmPerCellX)];
  const [top, bottom] = [Math.floor((y - far) / mmPerCellY), Math.ceil((y + far) / mmPerCellY)];
  for (let j = top; j < bottom; j++) {
    const down = (j + 0.5) * mmPerCellY - y;
    for (let i = left; i < right; i++) {
      const across = (i + 0.5) * mmPerCellX - x;
      const square = across * across + down * down;
      if (square > far * far) continue;
      const cell = placeOf(noise, i, j);
      const share = Math.min(1, (radius * (1 + rough * values[cell]) - Math.sqrt(square)) / soft + 0.5);
      if (share <= full[cell]) continue;
      if (full[cell] === 0) touched.push(cell);
      full[cell] = share;
    }
  }
}

function placeOf(shape: FieldShape, i: number, j: number): number {
  const isInside = i >= 0 && j >= 0 && i < shape.width && j < shape.height;
  return isInside ? i + j * shape.width : cellIndex(shape, i, j);
}

/** Adds so much per cell to what spots cover. */
export function pour({ cells, shares }: Spotted, amount: number, onto: Float32Array): void {
  for (let k = 0; k < cells.length; k++) onto[cells[k]] += amount * shares[k];
}
