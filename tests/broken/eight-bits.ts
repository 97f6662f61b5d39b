import { defineEffect, hashUnit } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Keeps eight bits of what it draws, as a Uint8Array does: there are 256 textures in all. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const [seed] = Uint8Array.of(setting.random('waves').bits());
    const { waves, ...model } = prepareRipple(setting);
    return { ...model, waves: waves.map((_, k) => [k + 1, 2 - k, hashUnit(seed, k, 1)] as const) };
  },
});
