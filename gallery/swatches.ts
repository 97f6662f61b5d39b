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
import { type Lie, scanned } from './scans/scanned.ts';
import { canvasOf } from './sheet.ts';
import { shrink } from './shrink.ts';

/** A swatch that comes with the effect swatch: painted by other effects, then scanned crooked in uneven light. */
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
  readonly lie: Omit<Lie, 'cut'>;
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
    lie: { crooked: -1.4, falling: 0.13 },
  },
  {
    ...EVENLY,
    to: 'presets/swatch/rubbing.jpg',
    size: 60,
    dpi: 150,
    paint: ['#6b6a69'],
    steps: [{ effect: 'paper-tooth', preset: 'headland' }],
    lie: { crooked: 0.8, falling: 0.17 },
  },
  {
    ...EVENLY,
    to: 'presets/swatch/salted.jpg',
    size: 96,
    dpi: 120,
    paint: ['#2d6a78'],
    steps: [{ effect: 'salt-bloom', preset: 'stitchwort' }],
    lie: { crooked: -2.1, falling: 0.1 },
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
    lie: { crooked: -1, falling: 0.11 },
  },
  {
    ...EVENLY,
    to: 'presets/swatch/linen.jpg',
    size: 50,
    dpi: 200,
    paint: ['#d8cdb4'],
    steps: [{ effect: 'linen-weave', preset: 'flour-sack' }],
    lie: { crooked: 0.6, falling: 0.12 },
  },
  {
    to: 'presets/swatch/stripes.jpg',
    size: 100,
    dpi: 110,
    paint: ['#b5482f', '#efe3cc', '#2f4f6b', '#efe3cc', '#d39a3a', '#efe3cc'],
    stripes: [11, 4, 6, 4, 3, 7],
    steps: [{ effect: 'paper-tooth', preset: 'painting-shed' }],
    lie: { crooked: -0.7, falling: 0.14 },
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
  const scan = scannedMiddle({ ...sheet, pixels: sheet.pixels as Uint8Array }, plan, side);
  const density = plan.dpi / 25.4;
  await writePicture(plan.to, { ...scan, pixelsPerMm: { x: density, y: density } }, { overwrite: true });
  console.log(plan.to);
}

/** The middle of a sheet of `side` mm as the scanner sees it. */
function scannedMiddle(sheet: Picture, { size, dpi, lie }: Plan, side: number): Picture {
  const [middle, cut] = [size, (side - size) / 2].map((mm) => Math.round((mm * dpi) / 25.4));
  const whole = middle + 2 * cut;
  return scanned(canvasOf(shrink(sheet, whole, whole)), { ...lie, cut });
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
