import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Trial } from '../../effect/prove/trial.ts';
import { Fault } from '../../fault.ts';
import { SKETCH_DENSITY } from '../../render/sketch-grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { makeTile } from '../lay-tile.ts';
import { resolveSteps } from '../plugins/resolve-steps.ts';
import type { ShelvedEffect } from '../plugins/shelf.ts';
import type { Limits } from '../threads/limits.ts';

/** What is looked at to see whether it shows must not keep anybody waiting. */
const LIMITS: Limits = { seconds: 5, megabytes: 768 };

/**
 * Draws a setting that failed, as a texture alone, and tells whether that shows a fault: no picture comes of it, or one
 * that does not close.
 *
 * @param ground `#rrggbb` that it is laid over.
 * @throws Fault (cancelled) where `signal` asked.
 */
export async function showsFault(
  plugin: ShelvedEffect,
  { layout, width, height, pixelsPerMm, seed, quality, parameters }: Trial,
  ground: string,
  signal?: AbortSignal,
): Promise<boolean> {
  const folder = await mkdtemp(join(tmpdir(), 'tenter-seen-'));
  const { name } = plugin.effect;
  try {
    const shelf = { effects: new Map([[name, plugin]]), faults: [] };
    const { seams } = await makeTile(
      {
        steps: resolveSteps(shelf, [{ effect: name, parameters }], seed),
        layout: parseLayout(layout),
        size: { width, height },
        density: pixelsPerMm,
        densityLimit: quality === 'sketch' ? SKETCH_DENSITY : undefined,
        fit: true,
        quality,
        ground,
        out: join(folder, 'seen.png'),
      },
      { limits: LIMITS, workers: 1, signal },
    );
    return seams.grade !== 'closes';
  } catch (error) {
    if (Fault.is(error) && error.kind !== 'cancelled') return true;
    throw error;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
