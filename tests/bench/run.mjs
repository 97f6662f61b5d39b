// npm run bench [-- quick whole once look page EFFECT ...]: prints what every stage costs. Nothing here passes or fails.
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { benchLook } from './look.mjs';
import { benchPage } from './page.mjs';
import { benchPrepare } from './prepare.mjs';
import { benchPreview } from './preview.mjs';
import { benchStages, NAMES } from './stages.mjs';
import { drawTile, makeLinen, makeNoise } from './tiles.mjs';
import { benchWarm } from './warm.mjs';
import { benchStart, benchWhole } from './whole.mjs';

/** `quick` leaves out what is large, `whole` all but whole commands, `once` measures these once and not thrice, `look` all but what a screen waits for, `page` all but the live page; effects that are named, all others. */
const [quick, onlyWhole, once, onlyLook, onlyPage] = ['quick', 'whole', 'once', 'look', 'page'].map((word) =>
  process.argv.includes(word),
);
const named = NAMES.filter((name) => process.argv.includes(name));
const effects = named.length > 0 ? named : NAMES;
const folder = mkdtempSync(join(tmpdir(), 'tenter-bench-'));
try {
  console.log(`Node ${process.version}, ${cpus().length} cores, ${cpus()[0].model}`);
  if (onlyLook) await benchLook(folder, quick);
  else if (onlyPage) await benchPage(quick);
  else await benchAll();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function benchAll() {
  if (!onlyWhole) await benchParts();
  benchStart(folder);
  await benchWarm();
  const runs = once ? 1 : 3;
  const tiles = [{ side: 2000, millimetres: 169, runs }];
  if (!quick) tiles.push({ side: 7559, millimetres: 640, runs });
  for (const tile of tiles) {
    tile.path = await drawTile(folder, tile.side);
    tile.noise = await makeNoise(folder, tile.side);
    tile.linen = makeLinen(folder, tile.side, tile.millimetres);
  }
  benchWhole(folder, tiles, effects);
}

async function benchParts() {
  await benchStages(effects);
  await benchPreview(effects);
  benchPrepare(folder, effects, quick);
}
