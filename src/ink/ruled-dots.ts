import { Fault } from '../fault.ts';
import type { Grid } from '../repeat/grid.ts';
import { trimNumber } from '../repeat/length.ts';
import type { RuledDots, Ruling } from './dot-field.ts';
import { openWaves, WAVE_LEVELS } from './ruled-rows.ts';
import { createScatteredDots } from './scattered-dots.ts';

/** What ruled dots are made for. */
export interface RuledDotsWish {
  readonly grid: Pick<Grid, 'lattice' | 'mmPerPixelX' | 'mmPerPixelY'>;
  readonly shape: 'lines' | 'round';
  /** Lines or rows per cm. */
  readonly perCm: number;
  /** Degrees from the horizontal, turning anticlockwise. */
  readonly angle: number;
  /** mm of the least dot and gap: two of them must fit from one line to the next; none where absent. */
  readonly leastDot?: number;
  readonly seed?: string;
}

/** A line and its gap want two pixels each to be told from the next. */
const LEAST_PIXELS = 4;
/** Pixels that the heights of waves are counted over; more than these only confirm it. */
const COUNTED = 4e6;
const WHOLE = 65_535;

/** A frequency: turns per mm to the right and down, and as whole turns along the period's vectors. */
interface Wave {
  readonly turns: readonly [number, number];
  readonly x: number;
  readonly y: number;
}

/**
 * Lines or round dots at a ruling and an angle, moved to the nearest that close over the period. The tone
 * is true at every level: thresholds are spread by how many pixels of the period lie how high.
 *
 * @throws Fault (usage) where the density is too low for the ruling, or the period too small for it.
 */
export function createRuledDots(wish: RuledDotsWish): RuledDots {
  const { grid, shape, perCm, angle } = wish;
  requireRuling(wish);
  const radians = (angle * Math.PI) / 180;
  const frequency = perCm / 10;
  const first = nearestWave(grid, frequency * Math.sin(radians), frequency * Math.cos(radians));
  const second = nearestWave(grid, -first.y, first.x);
  const area = first.x * second.y - first.y * second.x;
  if (Math.hypot(first.x, first.y) === 0 || (shape === 'round' && area === 0)) throw tooCoarse(wish);
  const chosen = shape === 'lines' ? [first] : [first, second];
  const waves = chosen.map(({ turns }) => turns);
  const { lattice } = grid;
  const side = Math.max(1, Math.min(lattice.ax, lattice.by, 256));
  return {
    kind: 'ruled',
    lattice,
    waves,
    steps: stepsOf({ lattice, waves }),
    ties: createScatteredDots({ lattice, side, seed: wish.seed }),
    asked: { perCm, angle: halfTurn(angle) },
    snapped: rulingOf(first, shape === 'lines' ? Math.hypot(first.x, first.y) : Math.sqrt(Math.abs(area))),
  };
}

/** The wave nearest to a frequency of those with whole turns along both of the period's vectors. */
function nearestWave(
  { lattice, mmPerPixelX, mmPerPixelY }: RuledDotsWish['grid'],
  x: number,
  y: number,
): Wave {
  const ax = lattice.ax * mmPerPixelX;
  const bx = lattice.bx * mmPerPixelX;
  const ay = lattice.ay * mmPerPixelY;
  const by = lattice.by * mmPerPixelY;
  const area = ax * by - ay * bx;
  const middle = [Math.round(x * ax + y * ay), Math.round(x * bx + y * by)];
  let best: Wave | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let m = middle[0] - 1; m <= middle[0] + 1; m++)
    for (let n = middle[1] - 1; n <= middle[1] + 1; n++) {
      const wave = { turns: [m, n] as const, x: (m * by - n * ay) / area, y: (n * ax - m * bx) / area };
      const off = (wave.x - x) ** 2 + (wave.y - y) ** 2;
      if (off >= least) continue;
      least = off;
      best = wave;
    }
  return best as Wave;
}

function rulingOf({ x, y }: Wave, frequency: number): Ruling {
  return { perCm: 10 * frequency, angle: halfTurn((Math.atan2(x, y) * 180) / Math.PI) };
}

function halfTurn(angle: number): number {
  const rest = angle - 180 * Math.floor(angle / 180);
  return rest >= 180 - 1e-9 ? 0 : rest;
}

/** By height of the waves, crest first: the share of the period's pixels that lie higher. */
function stepsOf(ruled: Pick<RuledDots, 'lattice' | 'waves'>): Uint16Array {
  const { ax, by } = ruled.lattice;
  const counts = new Float64Array(WAVE_LEVELS);
  const row = new Uint16Array(ax);
  const waves = openWaves(ruled);
  const stride = Math.max(1, Math.ceil((ax * by) / COUNTED));
  for (let y = 0; y < by; y += stride) {
    waves.row(0, y, ax, row);
    for (let x = 0; x < ax; x++) counts[row[x]]++;
  }
  const total = counts.reduce((sum, count) => sum + count, 0);
  const steps = new Uint16Array(WAVE_LEVELS + 1);
  let higher = 0;
  for (let level = 0; level < WAVE_LEVELS; level++) {
    higher += counts[level];
    steps[level + 1] = Math.round((WHOLE * higher) / total);
  }
  return steps;
}

function requireRuling({ grid, perCm, angle, leastDot = 0 }: RuledDotsWish): void {
  if (!Number.isFinite(angle)) throw outside('degrees', 'the angle of the screen', angle);
  if (!(perCm > 0) || !Number.isFinite(perCm))
    throw outside('lines per cm, above 0', 'the ruling of the screen', perCm);
  const pixel = Math.max(grid.mmPerPixelX, grid.mmPerPixelY);
  const least = Math.max(LEAST_PIXELS * pixel, 2 * leastDot);
  if (10 / perCm >= least * (1 - 1e-9)) return;
  const finest = trimNumber(Math.floor(100 / least) / 10, 1);
  const why =
    2 * leastDot > LEAST_PIXELS * pixel
      ? `a least dot of ${trimNumber(leastDot, 3)} mm`
      : `${trimNumber(25.4 / pixel, 1)} dpi, where a line and its gap want ${LEAST_PIXELS} pixels`;
  throw new Fault({
    kind: 'usage',
    expected: `at most ${finest} lines per cm at ${why}`,
    subject: 'the ruling of the screen',
    received: `${trimNumber(perCm, 2)} per cm`,
    remedy: `Take a ruling of ${finest} per cm or coarser, or scattered dots, or work at a higher density.`,
    details: { finestPerCm: Number(finest) },
  });
}

function tooCoarse({ grid, perCm }: RuledDotsWish): Fault {
  const { lattice, mmPerPixelX, mmPerPixelY } = grid;
  return new Fault({
    kind: 'usage',
    expected: 'a ruling that has at least one line in the repeat',
    subject: 'the ruling of the screen',
    received: `${trimNumber(perCm, 3)} per cm over ${trimNumber(lattice.ax * mmPerPixelX, 1)} x ${trimNumber(lattice.by * mmPerPixelY, 1)} mm`,
    remedy: 'Take a finer ruling.',
  });
}

function outside(expected: string, subject: string, value: number): Fault {
  return new Fault({ kind: 'usage', expected, subject, received: String(value) });
}
