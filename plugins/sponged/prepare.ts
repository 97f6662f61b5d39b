import { fractalNoise, meanLoad, parseHex, type Setting, type TextureLayer } from 'tenter';
import { dabAll, spongeFor } from './dabs.ts';
import { FACE_PORES, lobesFace, spongeFace } from './face.ts';
import type { SpongeModel } from './model.ts';
import { paintSponge } from './paint.ts';
import type { PARAMETERS } from './parameters.ts';

/** Lobes across the table of lobes, and mm of one beside the sponge. */
const LOBES = 8;
const LOBE = 0.34;
/** mm */
const TOOTH = 0.42;
/** The mean load that is aimed at where the artwork is printed, and the most that it is thickened for it. */
const WANTED_MEAN = 0.9;
const MOST_GAIN = 1.5;

export function prepareSponge(setting: Setting<typeof PARAMETERS>): SpongeModel {
  const { parameters: values, box, random, report, progress } = setting;
  const faces = spongeFace(random('face'));
  progress(0.8);
  const dabs = dabAll(box, values, random);
  const sponge = spongeFor(box, values.sponge);
  report({ name: 'dabs', value: dabs.length, unit: 'count' });
  if (sponge < values.sponge) {
    report({ name: 'sponge', value: Math.round(sponge * 10) / 10, unit: 'mm', asked: values.sponge });
  }
  const model: SpongeModel = {
    lattice: box.lattice,
    dabs,
    faces,
    lobes: lobesFace(LOBES, random('lobes')),
    faceSide: FACE_PORES * values.pores,
    lobesSide: LOBES * LOBE * sponge,
    tooth: fractalNoise(
      box.lattice,
      { along: TOOTH, across: TOOTH },
      { octaves: 2, gain: 0.7 },
      random('tooth'),
    ),
    action: values.action,
    colours: [parseHex(values.colour), parseHex(values.secondColour)],
    strength: values.strength / 100,
    edges: values.edges,
    gain: 1,
  };
  if (values.action !== 'printed') return model;
  // Printed artwork asks for the load alone.
  const mean = meanLoad(box, (band, layer) =>
    paintSponge(model, band, layer as TextureLayer<'load' | 'tint'>),
  );
  return { ...model, gain: Math.min(MOST_GAIN, WANTED_MEAN / Math.max(0.01, mean)) };
}
