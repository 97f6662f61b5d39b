// npm run bench [-- quick]: prints what every stage costs. Nothing here passes or fails.
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { benchPrepare } from './prepare.mjs';
import { benchPreview } from './preview.mjs';
import { benchStages } from './stages.mjs';
import { makeTexture, makeTile } from './tiles.mjs';
import { benchWhole } from './whole.mjs';

const quick = process.argv.includes('quick');
const folder = mkdtempSync(join(tmpdir(), 'tenter-bench-'));
try {
  console.log(`Node ${process.version}, ${cpus().length} cores, ${cpus()[0].model}`);
  const effects = await benchStages();
  await benchPreview(effects);
  benchPrepare(folder, effects, quick);
  const tiles = [{ side: 2000, millimetres: 169, runs: 3 }];
  if (!quick) tiles.push({ side: 7559, millimetres: 640, runs: 3 });
  for (const tile of tiles) {
    tile.path = await makeTile(folder, tile.side);
    tile.texture = await makeTexture(folder, tile.side);
  }
  benchWhole(folder, tiles, effects);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
