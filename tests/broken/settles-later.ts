import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Levels its ground in rounds that it forgets to wait for, where there is much of it. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    const model = { ...prepareRipple(setting) };
    const rounds = Math.floor(setting.box.height / 100);
    level(model, rounds);
    return model;
  },
});

async function level(model: { depth: number }, rounds: number): Promise<void> {
  for (let round = 0; round < rounds; round++) {
    await new Promise<void>((done) => setImmediate(done));
    model.depth *= 0.98;
  }
}
