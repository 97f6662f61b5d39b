// ns per pixel of the single stages, one core, in this process.
import { readdirSync } from 'node:fs';
import { boxOf, neutralLayer, parseLayout } from '../../dist/index.js';
import {
  layLayer,
  layThrough,
  openSetting,
  readBand,
  reuseLayer,
  writeBand,
} from '../../dist/render/index.js';
import { nanosecondsPerPixel, printTable } from './measure.mjs';

const WIDTH = 3780;
const ROWS = 256;
const MM_PER_PIXEL = 25.4 / 300;
const PIXELS = WIDTH * ROWS;

const plugins = new URL('../../dist/plugins/', import.meta.url);

/** All built-in effects. */
export const NAMES = readdirSync(plugins).filter((name) => !name.includes('.'));

export async function benchStages(names) {
  const repeat = {
    layout: parseLayout('drop:1/2'),
    width: WIDTH * MM_PER_PIXEL,
    height: WIDTH * MM_PER_PIXEL,
  };
  const rows = [['stage', 'ns per pixel, or ms']];
  for (const name of names) rows.push(...(await benchEffect(new URL(`${name}/index.js`, plugins), repeat)));
  rows.push(...benchComposite());
  printTable(`Stages on one core, ${repeat.width.toFixed(0)} mm half-drop tile at 300 dpi`, rows);
}

async function benchEffect(url, repeat) {
  const effect = (await import(url.href)).default;
  const { setting } = openSetting(effect, { box: boxOf(repeat), seed: '1' });
  const started = performance.now();
  const model = await effect.prepare(setting);
  const prepared = performance.now() - started;
  const planes = effect.planesFor?.(setting.parameters) ?? effect.planes;
  const band = { width: WIDTH, height: ROWS, mmPerPixelX: MM_PER_PIXEL, mmPerPixelY: MM_PER_PIXEL };
  let layer = neutralLayer(planes, WIDTH, ROWS);
  let y = 0;
  const paint = nanosecondsPerPixel(PIXELS, 7, () => {
    layer = reuseLayer(layer, planes, WIDTH, ROWS);
    effect.paint(model, { ...band, x: 0, y }, layer);
    y += ROWS;
  });
  return [
    [`${effect.name}: prepare`, `${prepared.toFixed(0)} ms (cold)`],
    [`${effect.name}: paint ${planes.join(' + ')}`, paint.toFixed(1)],
  ];
}

/** The whole way of a step that is alone in its pass: reading, laying and writing in one. */
function layBytes(pixels, layer, options) {
  const laid = new Uint8Array(pixels.length);
  return nanosecondsPerPixel(PIXELS, 7, () => layThrough(pixels, 0, layer, options, laid, 0));
}

function benchComposite() {
  const pixels = new Uint8Array(PIXELS * 4).map((_, index) => (index % 4 === 3 ? 255 : (index * 7919) % 256));
  const working = new Float32Array(PIXELS * 4);
  const paper = [1, 1, 1];
  const rows = [
    [
      'read a band (8 bit to linear)',
      nanosecondsPerPixel(PIXELS, 7, () => readBand(pixels, 0, PIXELS, working)),
    ],
    ['write a band', nanosecondsPerPixel(PIXELS, 7, () => writeBand(working, PIXELS, pixels, 0))],
  ];
  const kinds = [
    ['shade', 'normal'],
    ['load', 'normal'],
    ['tint', 'normal'],
    ['tint', 'multiply'],
    ['tint', 'luminosity'],
  ];
  for (const [plane, blend] of kinds) {
    const layer = neutralLayer([plane], PIXELS, 1);
    layer[plane].fill(0.7);
    const time = nanosecondsPerPixel(PIXELS, 7, () => {
      readBand(pixels, 0, PIXELS, working);
      layLayer(working, layer, { blend, paper, strength: 1 });
    });
    rows.push([`lay ${plane}, ${blend}, with reading`, time]);
    rows.push([
      `lay ${plane}, ${blend}, from bytes to bytes`,
      layBytes(pixels, layer, { blend, paper, strength: 1 }),
    ]);
  }
  return rows.map(([stage, time]) => [stage, time.toFixed(1)]);
}
