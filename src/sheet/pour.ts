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

/**
 * The cells of some spots together, each as full as it is in the fullest: what is poured there flows off
 * outward from all of them, not from each into the others.
 *
 * @param noise Of mean 0 and deviation 1: their edges follow it.
 */
export function spotCells(spots: readonly Spot[], noise: PeriodicField): Spotted {
  const full = new Map<number, number>();
  for (const spot of spots) addSpot(spot, noise, full);
  return { cells: Int32Array.from(full.keys()), shares: Float32Array.from(full.values()) };
}

function addSpot({ x, y, radius, soft, rough }: Spot, noise: PeriodicField, full: Map<number, number>): void {
  const { mmPerCellX, mmPerCellY } = noise;
  const far = radius * (1 + 2.5 * rough) + soft;
  const [left, right] = [Math.floor((x - far) / mmPerCellX), Math.ceil((x + far) / mmPerCellX)];
  const [top, bottom] = [Math.floor((y - far) / mmPerCellY), Math.ceil((y + far) / mmPerCellY)];
  for (let j = top; j < bottom; j++) {
    const down = (j + 0.5) * mmPerCellY - y;
    for (let i = left; i < right; i++) {
      const across = (i + 0.5) * mmPerCellX - x;
      const away = Math.sqrt(across * across + down * down);
      if (away > far) continue;
      const cell = placeOf(noise, i, j);
      const share = Math.min(1, (radius * (1 + rough * noise.values[cell]) - away) / soft + 0.5);
      if (share > (full.get(cell) ?? 0)) full.set(cell, share);
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
