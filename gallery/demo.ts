import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatLayout } from 'tenter';
import {
  Crew,
  findEffect,
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
import { drawSheet } from './sheet.ts';

/** What is laid over which design of the collection. */
const PLAN: readonly Treatment[] = [
  { design: 'windfall', effect: 'linen-weave', preset: 'kitchen-apron' },
  { design: 'cardoon', effect: 'linen-weave', preset: 'dinner-cloth' },
  { design: 'cloches', effect: 'wood-grain', preset: 'printed-plank' },
  { design: 'parterre', effect: 'linen-weave', preset: 'chair-seat' },
  { design: 'mackerel', effect: 'wood-grain', preset: 'pressed-panel', ground: '#d9c4a0' },
  { design: 'espalier', effect: 'wood-grain', preset: 'printed-plank' },
  { design: 'cardoon', effect: 'salt-bloom', preset: 'spilt-cellar' },
];

interface Treatment {
  readonly design: string;
  readonly effect: string;
  readonly preset: string;
  /** What the layer alone is shown on; by default unbleached cloth, or a wash where paint is moved. */
  readonly ground?: string;
}

/** What is made alone, each with the colour of the wash or ground that it is made on. */
const TEXTURES: readonly Omit<Treatment, 'design'>[] = [
  { effect: 'wood-grain', preset: 'passage-floor' },
  { effect: 'wood-grain', preset: 'writing-desk' },
  { effect: 'wood-grain', preset: 'grained-door' },
  { effect: 'linen-weave', preset: 'flour-sack' },
  { effect: 'salt-bloom', preset: 'stitchwort', ground: '#2a4a86' },
];

const CLOTH = '#efe6d2';
const WASH = '#4f7fa3';

/** 254 dpi: every size of the collection is whole in pixels. */
const PIXELS_PER_MM = 10;
const TEXTURE_MM = 200;

/** Lays the plan over the collection; tiles, layers, sheets and a seam report go to `folder`. */
export async function runDemo(folder: string, say: (line: string) => void): Promise<void> {
  rmSync(folder, { recursive: true, force: true });
  for (const part of ['artwork', 'finished', 'layers', 'sheets'])
    mkdirSync(join(folder, part), { recursive: true });
  const shelf = await openShelf();
  const crew = new Crew();
  const report: string[] = ['Seam report of the demo collection', ''];
  try {
    for (const artwork of COLLECTION) await drawArtwork(folder, artwork);
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
  const { design, effect, preset } = treatment;
  const artwork = COLLECTION.find(({ name }) => name === design)!;
  const size = { width: artwork.width, height: artwork.height };
  const layout = gridOf(artwork, PIXELS_PER_MM).repeat.layout;
  const steps = resolveSteps(shelf, [{ effect, preset }], '1');
  const file = `${design}-${effect}.png`;
  const out = join(folder, 'finished', file);
  const laid = await layTile({ tile: artworkPath(folder, artwork), layout, size, steps, out }, { crew });
  const ground = treatment.ground ?? groundFor(shelf, effect);
  const layer = { layout, size, density: PIXELS_PER_MM, steps, ground, out: join(folder, 'layers', file) };
  await makeTile(layer, { crew });
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
  { effect, preset, ground = groundFor(shelf, effect) }: Omit<Treatment, 'design'>,
  crew: Crew,
): Promise<string> {
  const steps = resolveSteps(shelf, [{ effect, preset }], '1');
  const layout = { kind: 'drop' as const, numerator: 1, denominator: 2 };
  const out = join(folder, 'layers', `${effect}-${preset}.png`);
  const size = { width: TEXTURE_MM, height: TEXTURE_MM };
  const made = await makeTile({ layout, size, density: PIXELS_PER_MM, steps, ground, out }, { crew });
  return `${effect}, ${preset}, alone at half-drop: ${made.seams.summary}`;
}

function groundFor(shelf: Shelf, effect: string): string {
  return findEffect(shelf, effect).effect.planes.includes('load') ? WASH : CLOTH;
}
