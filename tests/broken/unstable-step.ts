import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const STEPS = 900;
/** Above 2 what is left over grows with every step. */
const RATE = 4.5;

/** Lets its waves settle in steps of time that are too long: they grow until they are no numbers. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    let { height } = model;
    const rest = height / 2;
    for (let step = 0; step < STEPS; step++) height -= RATE * (height - rest);
    return { ...model, height };
  },
});
