import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

let depth = 0.2;
fetch('http://127.0.0.1:9/depth').then(
  async (answer) => {
    depth = Number(await answer.text());
  },
  () => {},
);

/** Is as dark as another machine says, where it answers. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth }),
});
