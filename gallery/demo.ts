import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatLayout } from 'tenter';
import {
  Crew,
  layTile,
  makeTile,
  openShelf,
  readPicture,
  resolveSteps,
  type Shelf,
  writePicture,
} from 'tenter/host';
import type { Artwork } from './artwork/artwork.ts';
import { COLLECTION, screensOf } from './artwork/collection.ts';
import { drawTile, gridOf, type Picture } from './artwork/tile.ts';
import { closeScan } from './scans/close-scan.ts';
import { drawSheet } from './sheet.ts';
import { goToTheMill } from './to-the-mill.ts';

/** What is laid over which design of the collection. */
const PLAN: readonly Treatment[] = [
  { design: 'windfall', effect: 'linen-weave', preset: 'kitchen-apron' },
  { design: 'cardoon', effect: 'linen-weave', preset: 'papered-wall' },
  { design: 'cloches', effect: 'wood-grain', preset: 'printed-plank' },
  { design: 'parterre', effect: 'linen-weave', preset: 'tea-towel' },
  { design: 'mackerel', effect: 'wood-grain', preset: 'pressed-panel' },
  { design: 'espalier', effect: 'wood-grain', preset: 'printed-plank' },
  { design: 'nasturtium', effect: 'salt-bloom', preset: 'cow-parsley' },
  { design: 'nasturtium', effect: 'wet-into-wet', preset: 'low-water' },
  { design: 'nasturtium', effect: 'alcohol-lift', preset: 'potting-shed', seed: '4' },
  { design: 'mackerel', effect: 'wet-into-wet', preset: 'tide-pool' },
  { design: 'espalier', effect: 'dry-brush', preset: 'potting-bench' },
  { design: 'parterre', effect: 'cracked-wax', preset: 'madder-root' },
  { design: 'windfall', effect: 'raw-silk', preset: 'paper-lantern' },
  { design: 'cardoon', effect: 'worn-print', preset: 'gardening-apron', paper: '#efe3c8' },
];

interface Treatment {
  readonly design: string;
  readonly effect: string;
  readonly preset: string;
  /** `1` where absent. */
  readonly seed?: string;
  /** The bare cloth or paper; white where absent. */
  readonly paper?: string;
}

interface Texture extends Omit<Treatment, 'design'> {
  /** The ground it lies on, or the wash that it works in. */
  readonly ground: string;
}

const CLOTH = '#efe6d2';

/** What is made alone. */
const TEXTURES: readonly Texture[] = [
  { effect: 'wood-grain', preset: 'passage-floor', ground: CLOTH },
  { effect: 'wood-grain', preset: 'writing-desk', ground: CLOTH },
  { effect: 'wood-grain', preset: 'grained-door', ground: CLOTH },
  { effect: 'linen-weave', preset: 'flour-sack', ground: CLOTH },
  { effect: 'woven-check', preset: 'twill-check', ground: '#ffffff' },
  { effect: 'woven-check', preset: 'blue-gingham', ground: '#ffffff' },
  { effect: 'salt-bloom', preset: 'rock-pool', ground: '#7b2b57' },
  { effect: 'wet-into-wet', preset: 'hydrangea', ground: '#dd8fa0' },
  { effect: 'alcohol-lift', preset: 'glasshouse-drip', ground: '#2f6f8a' },
  { effect: 'watered-silk', preset: 'deep-harbour', ground: '#7f9aa0' },
  { effect: 'raw-silk', preset: 'honesty-pods', ground: CLOTH },
  { effect: 'paper-tooth', preset: 'headland', ground: '#f3ead8' },
  { effect: 'dry-brush', preset: 'boat-hull', ground: '#2f5d7c' },
  { effect: 'cracked-wax', preset: 'net-loft', ground: '#d9a441' },
  { effect: 'sponged', preset: 'garden-wall', ground: '#8fa58a' },
  { effect: 'worn-print', preset: 'walking-map', ground: '#28356b', paper: '#efe3c8' },
  { effect: 'flat-wash', preset: 'rust-and-tea', ground: '#b98545', seed: '3' },
  { effect: 'terrazzo', preset: 'market-hall', ground: CLOTH },
  { effect: 'labyrinth', preset: 'garden-maze', ground: '#2f5d7c' },
];

/** 254 dpi: every size of the collection is whole in pixels. */
const PIXELS_PER_MM = 10;
const TEXTURE_MM = 200;

/** Lays the plan over the collection; tiles, textures, sheets and a seam report go to `folder`. */
export async function runDemo(folder: string, say: (line: string) => void): Promise<void> {
  rmSync(folder, { recursive: true, force: true });
  for (const part of ['artwork', 'finished', 'mill', 'textures', 'sheets'])
    mkdirSync(join(folder, part), { recursive: true });
  const shelf = await openShelf();
  const crew = new Crew();
  const report: string[] = ['Seam report of the demo collection', ''];
  try {
    const closed = await closeScan(folder);
    report.push(closed);
    say(closed);
    for (const artwork of COLLECTION) await drawArtwork(folder, artwork);
    say(goToTheMill(folder));
    for (const treatment of PLAN) {
      const line = await finish(folder, shelf, treatment, crew);
      report.push(line);
      say(line);
    }
    for (const texture of TEXTURES) say(await makeAlone(folder, shelf, texture, crew));
  } finally {
    await crew.close();
  }
  writeFileSync(join(folder, 'seams.txt'), `${report.join('\n')}\n`);
}

function drawArtwork(folder: string, artwork: Artwork): Promise<unknown> {
  const pixelsPerMm = { x: PIXELS_PER_MM, y: PIXELS_PER_MM };
  return writePicture(artworkPath(folder, artwork), { ...drawTile(artwork, PIXELS_PER_MM), pixelsPerMm });
}

function artworkPath(folder: string, { name }: Artwork): string {
  return join(folder, 'artwork', `${name}.png`);
}

async function finish(folder: string, shelf: Shelf, treatment: Treatment, crew: Crew): Promise<string> {
  const { design, effect, preset, seed = '1', paper } = treatment;
  const artwork = COLLECTION.find(({ name }) => name === design)!;
  const size = { width: artwork.width, height: artwork.height };
  const layout = gridOf(artwork, PIXELS_PER_MM).repeat.layout;
  const steps = resolveSteps(shelf, [{ effect, preset, paper }], seed);
  const file = `${design}-${effect}.png`;
  const out = join(folder, 'finished', file);
  const laid = await layTile({ tile: artworkPath(folder, artwork), layout, size, steps, out }, { crew });
  const sheet = drawSheet({
    name: artwork.title,
    repeat: laid.grid.repeat,
    tile: await readFinished(out),
    effect,
    preset,
    cut: effect === 'linen-weave' ? 'pinked' : 'straight',
    inks: screensOf(artwork),
  });
  await writePicture(join(folder, 'sheets', file), sheet);
  return `${design} (${formatLayout(layout)}) with ${effect}, ${preset}: ${[laid.seams.summary, ...laid.warnings].join(' Note: ')}`;
}

async function readFinished(path: string): Promise<Picture> {
  const { pixels, width, height } = await readPicture(path);
  return { pixels: pixels as Uint8Array, width, height };
}

async function makeAlone(
  folder: string,
  shelf: Shelf,
  { effect, preset, ground, seed = '1', paper }: Texture,
  crew: Crew,
): Promise<string> {
  const steps = resolveSteps(shelf, [{ effect, preset, paper }], seed);
  const layout = { kind: 'drop' as const, numerator: 1, denominator: 2 };
  const out = join(folder, 'textures', `${effect}-${preset}.png`);
  const size = { width: TEXTURE_MM, height: TEXTURE_MM };
  const made = await makeTile({ layout, size, density: PIXELS_PER_MM, steps, ground, out }, { crew });
  return `${effect}, ${preset}, alone at half-drop: ${made.seams.summary}`;
}
