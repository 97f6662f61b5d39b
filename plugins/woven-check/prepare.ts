import { type Box, fractalNoise, parseHex, type RandomStream, type Rgb, type Setting } from 'tenter';
import { drawCrossings } from './crossing.ts';
import type { CheckModel, ThreadSet } from './model.ts';
import { readOrder, SAME, threadsOf, writeOrder } from './order.ts';
import type { CheckValues, PARAMETERS } from './parameters.ts';
import { partsOf, type Sett, snapSett } from './sett.ts';
import { type Weave, weaveOf } from './weave.ts';

/** Reads the orders, snaps the threads and draws the crossings. */
export function prepareCheck(setting: Setting<typeof PARAMETERS>): CheckModel {
  const { parameters: values, box, report } = setting;
  const weave = weaveOf(values.weave);
  const [ends, picks = ends] = values.sett;
  const warp = settOf(values, 'warp', ends, weave, box);
  const weft = settOf(values, 'weft', picks, weave, box);
  report({ name: 'ends', value: perCm(warp), unit: 'per cm', asked: ends });
  report({ name: 'picks', value: perCm(weft), unit: 'per cm', asked: picks });
  report({ name: 'warp', value: writeOrder(warp.stripes), asked: values.warp });
  if (values.weft !== SAME || writeOrder(weft.stripes) !== writeOrder(warp.stripes))
    report({ name: 'weft', value: writeOrder(weft.stripes), asked: orderOf(values, 'weft') });
  report({ name: 'orders', value: `${warp.orders} across, ${weft.orders} down` });
  return {
    lattice: { ...box.lattice },
    crossings: drawCrossings({
      weave,
      crowding: weft.pitch / warp.pitch,
      cover: values.cover / 100,
      relief: values.relief,
      light: values.light,
    }),
    weave: weave.length,
    warp: spin(values, warp, 'warp', setting),
    weft: spin(values, weft, 'weft', setting),
    dye: values.dye / 100,
  };
}

type Which = 'warp' | 'weft';

function orderOf(values: CheckValues, which: Which): string {
  return which === 'weft' && values.weft !== SAME ? values.weft : values.warp;
}

function settOf(values: CheckValues, which: Which, density: number, weave: Weave, box: Box): Sett {
  const stripes = readOrder(orderOf(values, which), values.yarns.length, which);
  const along = which === 'warp' ? 'width' : 'height';
  const wish = { stripes, turned: values.turned, perMm: density / 10, weave: weave.length };
  return snapSett(wish, box[along], partsOf(box, along));
}

/** mm along a yarn over which it swells and thins, a fibre runs, and a thread strays. */
const BODY = 7;
const FIBRE = 1.1;
const STRAYING = 18;
/** Deviation of straying 1, in threads. */
const STRAYING_THREADS = 0.16;
/** Degrees that fibres lean from their yarn: twist. */
const TWIST = 14;

/** Spins one set of yarns. Ends run down the page: their noises are long in that direction. */
function spin(
  { yarns, turned, unevenness, fibres, tone, straying }: CheckValues,
  { stripes, loop, pitch }: Sett,
  which: Which,
  { box, random }: Setting<typeof PARAMETERS>,
): ThreadSet {
  const direction = which === 'warp' ? 90 : 0;
  const rgb = yarns.map((colour) => parseHex(colour));
  const field = (name: string, along: number, across: number, lean: number, deviation: number) =>
    fractalNoise(
      box.lattice,
      { along, across, direction: direction + lean },
      { octaves: 1, gain: 1, deviation },
      random(`${which} ${name}`),
    );
  return {
    pitch,
    colours: coloursOf(threadsOf(stripes, turned), loop, rgb),
    tones: tonesOf(loop, tone / 100, random(`${which} tone`)),
    body: field('body', BODY, 1.5 * pitch, 0, unevenness / 100),
    fibres: field('fibres', FIBRE, pitch / 5, TWIST, fibres / 100),
    straying: field('straying', STRAYING, STRAYING / 2, 0, STRAYING_THREADS * straying * pitch),
  };
}

function coloursOf(order: Uint8Array, count: number, yarns: readonly Rgb[]): Float32Array {
  const colours = new Float32Array(3 * count);
  for (let thread = 0; thread < count; thread++) colours.set(yarns[order[thread % order.length]], 3 * thread);
  return colours;
}

function tonesOf(count: number, deviation: number, random: RandomStream): Float32Array {
  return Float32Array.from(
    { length: count },
    () => 1 + deviation * Math.max(-2.5, Math.min(2.5, random.normal())),
  );
}

/** Threads per cm, to three decimals. */
function perCm({ pitch }: Sett): number {
  return Math.round(10_000 / pitch) / 1000;
}
