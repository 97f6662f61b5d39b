import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatLayout } from 'tenter';
import {
  Crew,
  layTile,
  makeTile,
  openShelf,
  type RenderStep,
  readPicture,
  resolveSteps,
  type Shelf,
  writePicture,
} from 'tenter/host';
import type { Artwork } from './artwork/artwork.ts';
import { COLLECTION, screensOf } from './artwork/collection.ts';
import { drawTile, gridOf } from './artwork/tile.ts';
import { drawSheet } from './sheet.ts';

/** What is laid over which design of the collection. */
const PLAN: readonly {
  readonly design: string;
  readonly effect: string;
  readonly preset: string;
  readonly ground: string;
}[] = [
  { design: 'windfall', effect: 'linen-weave', preset: 'kitchen-apron', ground: '#efe6d2' },
  { design: 'cardoon', effect: 'linen-weave', preset: 'dinner-cloth', ground: '#efe6d2' },
  { design: 'cloches', effect: 'wood-grain', preset: 'printed-plank', ground: '#efe6d2' },
  { design: 'parterre', effect: 'linen-weave', preset: 'chair-seat', ground: '#efe6d2' },
  { design: 'mackerel', effect: 'wood-grain', preset: 'pressed-panel', ground: '#d9c4a0' },
  { design: 'espalier', effect: 'wood-grain', preset: 'printed-plank', ground: '#efe6d2' },
];

const TEXTURES: readonly { readonly effect: string; readonly preset: string }[] = [
  { effect: 'wood-grain', preset: 'passage-floor' },
  { effect: 'wood-grain', preset: 'writing-desk' },
  { effect: 'wood-grain', preset: 'grained-door' },
  { effect: 'linen-weave', preset: 'flour-sack' },
];

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
    for (const { design, effect, preset, ground } of PLAN) {
      const artwork = COLLECTION.find(({ name }) => name === design)!;
      const steps = resolveSteps(shelf, [{ effect, preset }], '1');
      const line = await finish(folder, artwork, steps, ground, crew);
      report.push(line);
      say(line);
    }
    for (const { effect, preset } of TEXTURES) say(await makeAlone(folder, shelf, effect, preset, crew));
  } finally {
    await crew.close();
  }
  writeFileSync(join(folder, 'seams.txt'), `${report.join('\n')}\n`);
}

async function finish(
  folder: string,
  artwork: Artwork,
  steps: RenderStep[],
  ground: string,
  crew: Crew,
): Promise<string> {
  const { name, width, height } = artwork;
  const { effect, preset } = steps[0];
  const size = { width, height };
  const layout = gridOf(artwork, PIXELS_PER_MM).repeat.layout;
  const tile = join(folder, 'artwork', `${name}.png`);
  const pixelsPerMm = { x: PIXELS_PER_MM, y: PIXELS_PER_MM };
  await writePicture(tile, { ...drawTile(artwork, PIXELS_PER_MM), pixelsPerMm });
  const out = join(folder, 'finished', `${name}-${effect}.png`);
  const laid = await layTile({ tile, layout, size, steps, out }, { crew });
  const layer = join(folder, 'layers', `${name}-${effect}.png`);
  await makeTile({ layout, size, density: PIXELS_PER_MM, steps, ground, out: layer }, { crew });
  const { pixels, width: columns, height: rows } = await readPicture(out);
  const finished = { pixels: pixels as Uint8Array, width: columns, height: rows };
  const sheet = drawSheet({
    name: artwork.title,
    repeat: laid.grid.repeat,
    tile: finished,
    effect,
    preset,
    cut: effect === 'wood-grain' ? 'straight' : 'pinked',
    inks: screensOf(artwork),
  });
  await writePicture(join(folder, 'sheets', `${name}.png`), sheet);
  return `${name} (${formatLayout(layout)}) with ${effect}, ${preset}: ${[laid.seams.summary, ...laid.warnings].join(' Note: ')}`;
}

async function makeAlone(
  folder: string,
  shelf: Shelf,
  effect: string,
  preset: string,
  crew: Crew,
): Promise<string> {
  const steps = resolveSteps(shelf, [{ effect, preset }], '1');
  const layout = { kind: 'drop' as const, numerator: 1, denominator: 2 };
  const out = join(folder, 'layers', `${effect}-${preset}.png`);
  const size = { width: TEXTURE_MM, height: TEXTURE_MM };
  const made = await makeTile(
    { layout, size, density: PIXELS_PER_MM, steps, ground: '#efe6d2', out },
    { crew },
  );
  return `${effect}, ${preset}, alone at half-drop: ${made.seams.summary}`;
}
