import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Rounds down to steps of the shear how many waves fit: where it is a third of a small box, none does. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box } = setting;
    const { denominator } = box.layout;
    const fitting = (length: number) => Math.floor(length / 11 / denominator) * denominator;
    const [across, down] = [fitting(box.width), fitting(box.height)];
    const waves = prepareRipple(setting).waves.map(
      ([, , phase]) => [Math.sign(across), Math.sign(down), phase] as const,
    );
    return { ...prepareRipple(setting), waves };
  },
});
