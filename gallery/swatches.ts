import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parseHex, STRAIGHT } from 'tenter';
import {
  Crew,
  layTile,
  openShelf,
  type RecipeStep,
  readPicture,
  resolveSteps,
  writePicture,
} from 'tenter/host';
import type { Picture } from './artwork/tile.ts';
import { scanned } from './scan.ts';

/** Draws the swatches that come with the effect swatch: painted by other effects, then scanned crooked in uneven light. */
interface Plan {
  readonly to: string;
  /** mm of the scan, and its density. */
  readonly size: number;
  readonly dpi: number;
  /** The colours that stripes are painted in before the steps are laid; one alone covers all. */
  readonly paint: readonly string[];
  /** mm of each stripe. */
  readonly stripes: readonly number[];
  readonly steps: readonly RecipeStep[];
  /** deg that the sheet lay askew. */
  readonly turn: number;
  /** How much light was lost where it was darkest, 0..1. */
  readonly falloff: number;
}

const EVENLY = { stripes: [10] };

const PLANS: readonly Plan[] = [
  {
    ...EVENLY,
    to: 'plugins/swatch/sponge.jpg',
    size: 80,
    dpi: 144,
    paint: ['#2f5f8c'],
    steps: [
      {
        effect: 'sponged',
        preset: 'pebble-shore',
        parameters: { sponge: 20, pores: 1.5, drifts: 0, passes: 2, variation: 0.3 },
      },
    ],
    turn: 1.4,
    falloff: 0.24,
  },
  {
    ...EVENLY,
    to: 'presets/swatch/rubbing.jpg',
    size: 60,
    dpi: 150,
    paint: ['#6b6a69'],
    steps: [{ effect: 'paper-tooth', preset: 'headland' }],
    turn: -0.8,
    falloff: 0.3,
  },
  {
    ...EVENLY,
    to: 'presets/swatch/salted.jpg',
    size: 96,
    dpi: 120,
    paint: ['#2d6a78'],
    steps: [{ effect: 'salt-bloom', preset: 'stitchwort' }],
    turn: 2.1,
    falloff: 0.18,
  },
  {
    ...EVENLY,
    to: 'presets/swatch/brushed.jpg',
    size: 90,
    dpi: 120,
    paint: ['#9c5a3c'],
    steps: [
      { effect: 'dry-brush', preset: 'boat-hull', parameters: { direction: 86, width: 60, dryness: 0.3 } },
    ],
    turn: 1,
    falloff: 0.2,
  },
  {
    ...EVENLY,
    to: 'presets/swatch/linen.jpg',
    size: 50,
    dpi: 200,
    paint: ['#d8cdb4'],
    steps: [{ effect: 'linen-weave', preset: 'flour-sack' }],
    turn: -0.6,
    falloff: 0.22,
  },
  {
    to: 'presets/swatch/stripes.jpg',
    size: 100,
    dpi: 110,
    paint: ['#b5482f', '#efe3cc', '#2f4f6b', '#efe3cc', '#d39a3a', '#efe3cc'],
    stripes: [11, 4, 6, 4, 3, 7],
    steps: [{ effect: 'paper-tooth', preset: 'painting-shed' }],
    turn: 0.7,
    falloff: 0.25,
  },
];

const shelf = await openShelf();
const crew = new Crew();
const folder = 'out/swatches';
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
mkdirSync('presets/swatch', { recursive: true });
const only = process.argv[2] ?? '';
try {
  for (const [k, plan] of PLANS.entries()) if (plan.to.includes(only)) await drawSwatch(plan, String(k));
} finally {
  await crew.close();
}

async function drawSwatch(plan: Plan, name: string): Promise<void> {
  // A sheet larger than the scan, so that it may lie askew; its pixels twice as close.
  const side = 8 * Math.ceil((plan.size * 1.15) / 8);
  const perMm = Math.round((2 * plan.dpi) / 25.4);
  const tile = join(folder, `${name}-paint.png`);
  const out = join(folder, `${name}-sheet.png`);
  const pixelsPerMm = { x: perMm, y: perMm };
  await writePicture(tile, { ...painted(plan, side, perMm), pixelsPerMm }, { overwrite: true });
  const steps = resolveSteps(shelf, plan.steps, plan.to);
  await layTile({ tile, layout: STRAIGHT, size: { width: side, height: side }, steps, out }, { crew });
  const sheet = await readPicture(out);
  const scan = scanned({ ...sheet, pixels: sheet.pixels as Uint8Array, perMm }, plan);
  const density = plan.dpi / 25.4;
  await writePicture(plan.to, { ...scan, pixelsPerMm: { x: density, y: density } }, { overwrite: true });
  console.log(plan.to);
}

/** Stripes with edges as a hand paints them. */
function painted({ paint, stripes }: Plan, side: number, perMm: number): Picture {
  const [width, height] = [side * perMm, side * perMm];
  const pixels = new Uint8Array(4 * width * height);
  const colours = paint.map((colour) => parseHex(colour).map((value) => Math.round(255 * value)));
  const whole = stripes.reduce((sum, stripe) => sum + stripe, 0);
  for (let j = 0, to = 0; j < height; j++) {
    for (let i = 0; i < width; i++, to += 4) {
      const y = j / perMm;
      const waver = 0.35 * Math.sin(y / 9) + 0.18 * Math.sin(y / 2.3 + 1) + 0.07 * Math.sin(y / 0.7 + i);
      let at = (((i / perMm + waver) % whole) + whole) % whole;
      let stripe = 0;
      while (at >= stripes[stripe] && stripe < stripes.length - 1) at -= stripes[stripe++];
      pixels.set([...colours[stripe % colours.length], 255], to);
    }
  }
  return { pixels, width, height };
}
