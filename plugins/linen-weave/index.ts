import { choice, colour, defineEffect, numeric, type ValuesOf } from 'tenter';
import { LARGEST_ORDER, WEAVES } from './draft.ts';
import { levelShade } from './level.ts';
import { type LinenModel, type LinenSpec, weaveLinen } from './model.ts';
import { paintLinen } from './paint.ts';

const parameters = {
  weave: choice({
    options: WEAVES,
    default: 'plain',
    help: 'How warp and weft cross: over and under by ones, in slanting lines, in groups, or nearly all on the face.',
  }),
  order: numeric({
    unit: 'count',
    min: 0,
    max: LARGEST_ORDER,
    default: 0,
    whole: true,
    help: 'Threads in one repeat of a twill, basket or satin; 0 takes the usual one.',
  }),
  move: numeric({
    unit: 'count',
    min: 0,
    max: LARGEST_ORDER - 1,
    default: 0,
    whole: true,
    help: 'Steps from one thread to the next in a twill or satin; 0 takes the usual one.',
  }),
  ends: numeric({
    unit: 'per cm',
    min: 3,
    max: 40,
    default: 13,
    help: 'Warp threads, which run down the page; snapped to close over the repeat.',
  }),
  picks: numeric({
    unit: 'per cm',
    min: 3,
    max: 40,
    default: 12,
    help: 'Weft threads, which run across the page; snapped to close over the repeat.',
  }),
  warpCount: numeric({
    unit: 'tex',
    min: 10,
    max: 1200,
    default: 138,
    help: 'How heavy the warp yarn is: heavier is thicker and closes the cloth.',
  }),
  weftCount: numeric({
    unit: 'tex',
    min: 10,
    max: 1200,
    default: 165,
    help: 'How heavy the weft yarn is: heavier is thicker and closes the cloth.',
  }),
  unevenness: numeric({
    unit: 'percent',
    min: 0,
    max: 60,
    default: 23,
    help: 'How much the yarns thicken and thin along their length.',
  }),
  slubs: numeric({
    unit: 'per m',
    min: 0,
    max: 12,
    default: 1.6,
    help: 'Thick places spun into each metre of yarn.',
  }),
  tone: numeric({
    unit: 'percent',
    min: 0,
    max: 30,
    default: 9,
    help: 'How much lighter or darker one yarn is than the next.',
  }),
  fibres: numeric({
    unit: 'percent',
    min: 0,
    max: 60,
    default: 14,
    help: 'How clearly the twisted fibres show on the yarns.',
  }),
  straying: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How far the threads stray from straight lines; 0 is ruled, 1 is cloth off the loom.',
  }),
  light: numeric({
    unit: 'deg',
    min: 0,
    max: 360,
    default: 225,
    help: 'Where the light comes from: 0 the right, 90 below, 180 the left, 270 above.',
  }),
  relief: numeric({
    unit: 'ratio',
    min: 0,
    max: 2,
    default: 1,
    help: 'How deep the threads stand in light and shade; 0 leaves them flat.',
  }),
  gap: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 75,
    help: 'How dark the open ground between the threads is.',
  }),
  wear: numeric({
    unit: 'ratio',
    min: 0,
    max: 1,
    default: 0.2,
    help: 'From crisp off the loom (0) to washed, pressed and flattened (1).',
  }),
  warpColour: colour({
    default: '#ffffff',
    help: 'Colour of the warp yarn; white takes the colour of the artwork.',
  }),
  weftColour: colour({
    default: '#ffffff',
    help: 'Colour of the weft yarn; white takes the colour of the artwork.',
  }),
  dye: numeric({
    unit: 'percent',
    min: 0,
    max: 100,
    default: 100,
    help: 'Strength of the yarn colours over the artwork.',
  }),
} as const;

type Values = ValuesOf<typeof parameters>;

/** Linen: a ground of spun flax yarns woven over and under, lit from the side. */
export default defineEffect({
  apiVersion: 1,
  name: 'linen-weave',
  version: '1.0.0',
  summary: 'Linen cloth: uneven flax yarns in plain weave, twill, basket or satin, lit from the side.',
  parameters,
  planes: ['shade', 'tint'],
  blend: 'multiply',
  planesFor: (values) => (isDyed(values) ? ['shade', 'tint'] : ['shade']),
  prepare({ parameters: values, box, random, report, progress }): LinenModel {
    const woven = weaveLinen(specOf(values), box, random);
    progress(0.9);
    const { sett, cover } = woven;
    report({ name: 'ends', value: perCm(sett.endPitch), unit: 'per cm', asked: values.ends });
    report({ name: 'picks', value: perCm(sett.pickPitch), unit: 'per cm', asked: values.picks });
    report({ name: 'cover', value: Math.round(cover * 100), unit: 'percent' });
    return levelShade(woven, meanShadeOf(values));
  },
  paint: paintLinen,
});

/** The mean light a linen returns: the artwork's colours darken by 12 % of their light at relief 1. */
function meanShadeOf({ relief }: Values): number {
  return 1 - 0.12 * relief;
}

function isDyed({ dye, warpColour, weftColour }: Values): boolean {
  return dye > 0 && (warpColour !== '#ffffff' || weftColour !== '#ffffff');
}

function specOf(values: Values): LinenSpec {
  return {
    weave: values.weave,
    order: values.order,
    move: values.move,
    endsPerMm: values.ends / 10,
    picksPerMm: values.picks / 10,
    warpTex: values.warpCount,
    weftTex: values.weftCount,
    unevenness: values.unevenness / 100,
    slubsPerMetre: values.slubs,
    tone: values.tone / 100,
    streaks: values.fibres / 100,
    straying: values.straying,
    lighting: { from: values.light, relief: values.relief, wear: values.wear },
    gapDarkness: values.gap / 100,
    warpColour: channelsOf(values.warpColour),
    weftColour: channelsOf(values.weftColour),
    dye: values.dye / 100,
  };
}

/** `#rrggbb` as three numbers 0..1. */
function channelsOf(text: string): [number, number, number] {
  const bits = Number.parseInt(text.slice(1), 16);
  return [(bits >> 16) / 255, ((bits >> 8) & 255) / 255, (bits & 255) / 255];
}

/** mm from thread to thread as threads per cm, to three decimals. */
function perCm(pitch: number): number {
  return Math.round(10000 / pitch) / 1000;
}
