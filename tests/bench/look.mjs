// What a screen waits for: looks at 1280 x 800 px of cloth, as the page asks for them, in this process.
import { availableParallelism } from 'node:os';
import {
  openShelf,
  openSightArtwork,
  plainFrame,
  readPicture,
  resolveSteps,
  Sight,
} from '../../dist/host/index.js';
import { parseLayout } from '../../dist/index.js';
import { printTable } from './measure.mjs';
import { drawTile } from './tiles.mjs';

const CHANGES = Number(process.env.LOOK_CHANGES ?? 30);
/** mm; 4 px of the screen to the mm. */
const SIZE = { width: 320, height: 200 };
const SCREEN = 4;
const PRINT = 300 / 25.4;
/** @param folder For the large tile. @param quick leaves the 57-megapixel tile out. */
export async function benchLook(folder, quick) {
  const shelf = await openShelf([]);
  const tile = drawArtwork(3780, 2362);
  const artwork = openSightArtwork(tile);
  const sight = new Sight();
  const order = { artwork, ground: '#ffffff', layout: parseLayout('straight'), size: SIZE, follow: 'cloth' };
  const stepsOf = (effect, parameters = {}, more = {}) =>
    resolveSteps(shelf, [{ effect, parameters, ...more }], '1');
  const look = (wish) => sight.look({ ...order, quality: 'finished', density: SCREEN, ...wish });
  const rows = [['what', 'median ms', '95th ms', 'prepare', 'paint']];
  const run = async (name, wishOf) => {
    rows.push([name, ...(await measure((k) => look(wishOf(k))))]);
    console.log(`  ${rows.at(-1).join('  ')}`);
  };
  try {
    await look({ steps: stepsOf('linen-weave') });
    const opacityOf = (k) => ({ opacity: 0.3 + k / 100 });
    await run('opacity, linen', (k) => ({ steps: stepsOf('linen-weave', {}, opacityOf(k)) }));
    await look({ steps: stepsOf('salt-bloom') });
    await run('opacity, salt', (k) => ({ steps: stepsOf('salt-bloom', {}, opacityOf(k)) }));
    const mask = (k) => ({ mask: { colours: ['#f1e8d6'], tolerance: 2 + k / 4 } });
    await run('tolerance of a colour mask, linen', (k) => ({ steps: stepsOf('linen-weave', {}, mask(k)) }));
    for (const effect of [
      'linen-weave',
      'wood-grain',
      'raw-silk',
      'paper-tooth',
      'salt-bloom',
      'wet-into-wet',
      'alcohol-lift',
    ]) {
      for (const name of draggedOf(shelf.effects.get(effect).effect)) {
        const at = (k, more) => ({ steps: stepsOf(effect, { [name.key]: name.at(k) }), ...more });
        await run(`${effect} ${name.key}: first`, (k) => at(k, { quality: 'sketch', density: SCREEN / 2 }));
        if (['salt-bloom', 'wet-into-wet', 'alcohol-lift'].includes(effect))
          await run(`${effect} ${name.key}: sketch`, (k) => at(k + 0.3, { quality: 'sketch' }));
        else await run(`${effect} ${name.key}: finished`, (k) => at(k + 0.3, {}));
      }
    }
    const partAt = (k) => ({ left: 20 + k, top: 30, width: 1280 / PRINT, height: 800 / PRINT });
    const linen = stepsOf('linen-weave');
    await run('part at 300 dpi: elsewhere', (k) => ({ steps: linen, density: PRINT, part: partAt(k) }));
    await run('part at 300 dpi: back', (k) => ({ steps: linen, density: PRINT, part: partAt(27 + (k % 3)) }));
    await run('part at 300 dpi: opacity', (k) => ({
      steps: stepsOf('linen-weave', {}, opacityOf(k)),
      density: PRINT,
      part: partAt(29),
    }));
    const salt = stepsOf('salt-bloom');
    await run('part at 300 dpi, salt: elsewhere', (k) => ({ steps: salt, density: PRINT, part: partAt(k) }));
  } finally {
    await sight.close();
  }
  printTable(
    `Looks at 1280 x 800 px, ${SIZE.width} mm of cloth, ${availableParallelism()} threads, ${CHANGES} changes each`,
    rows,
  );
  if (!quick) await benchOpening(folder, stepsOf);
}

/** All numbers of an effect that are dragged: the first few. */
function draggedOf({ parameters }) {
  return Object.entries(parameters)
    .filter(([, { kind, whole }]) => kind === 'number' && !whole)
    .slice(0, 3)
    .map(([key, { min, max, default: usual }]) => ({
      key,
      at: (k) => usual + (k / CHANGES) * ((usual - min > max - usual ? min : max) - usual) * 0.3,
    }));
}

async function benchOpening(folder, stepsOf) {
  const path = await drawTile(folder, 7559);
  const rows = [['what', 'ms']];
  const started = performance.now();
  const picture = await readPicture(path);
  rows.push(['read', (performance.now() - started).toFixed(0)]);
  const artwork = openSightArtwork(picture);
  const sight = new Sight();
  try {
    const size = { width: 640, height: 640 };
    const order = { artwork, ground: '#ffffff', layout: parseLayout('drop:1/2'), size, follow: 'cloth' };
    await sight.look({ ...order, steps: [], quality: 'sketch', density: 2 });
    rows.push(['first picture, reading and threads with it', (performance.now() - started).toFixed(0)]);
    const again = performance.now();
    await sight.look({ ...order, steps: stepsOf('linen-weave'), quality: 'sketch', density: 2 });
    rows.push(['linen on it, a sketch', (performance.now() - again).toFixed(0)]);
    rows.push(['memory, MB', (process.memoryUsage.rss() / 1e6).toFixed(0)]);
  } finally {
    await sight.close();
  }
  printTable('Opening a tile of 57 megapixels', rows);
}

/** Flat colours with edges, as a print design is. */
function drawArtwork(width, height) {
  const tile = plainFrame(width, height, '#f1e8d6');
  const words = new Uint32Array(tile.pixels.buffer);
  const cell = width / 6;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [dx, dy] = [(x % cell) - cell / 2, (y % cell) - cell / 2];
      if (dx * dx + dy * dy < (cell * 0.36) ** 2) words[y * width + x] = 0xff344abe;
    }
  return tile;
}

async function measure(look) {
  const all = [];
  for (let k = 1; k <= CHANGES; k++) {
    const started = performance.now();
    const { timings } = await look(k);
    all.push({ ms: performance.now() - started, ...timings });
  }
  const at = (key, share) => {
    const sorted = all.map((one) => one[key]).sort((a, b) => a - b);
    return sorted[Math.min(CHANGES - 1, Math.floor(share * CHANGES))].toFixed(0);
  };
  return [at('ms', 0.5), at('ms', 0.95), at('prepare', 0.5), at('paint', 0.5)];
}
