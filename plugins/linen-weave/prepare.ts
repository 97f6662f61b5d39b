import type { Setting } from 'tenter';
import { levelShade } from './level.ts';
import type { LinenModel } from './model.ts';
import type { LinenValues, PARAMETERS } from './parameters.ts';
import { type LinenSpec, weaveLinen } from './weave.ts';

/** Half the samples either way: a quarter of the work, a little harsher from near by. */
const SKETCH_SAMPLING = 0.5;

/** Weaves the cloth and brings its light to its level. */
export function prepareLinen(setting: Setting<typeof PARAMETERS>): LinenModel {
  const { parameters: values, box, random, report, progress, quality } = setting;
  const woven = weaveLinen(specOf(values), box, random);
  progress(0.9);
  const { sett, cover } = woven;
  report({ name: 'ends', value: perCm(sett.endPitch), unit: 'per cm', asked: values.ends });
  report({ name: 'picks', value: perCm(sett.pickPitch), unit: 'per cm', asked: values.picks });
  report({ name: 'cover', value: Math.round(cover * 100), unit: 'percent' });
  return { ...levelShade(woven, meanShadeOf(values)), sampling: quality === 'sketch' ? SKETCH_SAMPLING : 1 };
}

/** The mean light a linen returns: the artwork's colours darken by 12 % of their light at relief 1. */
function meanShadeOf({ relief }: LinenValues): number {
  return 1 - 0.12 * relief;
}

function specOf(values: LinenValues): LinenSpec {
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
    inked: values.inked,
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
