import { type AnyEffect, type Setting, text } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Divides by how many threads there are in all, which its pattern lets be none. */
const noThreads: AnyEffect = {
  ...(ripple as AnyEffect),
  apiVersion: 2,
  parameters: {
    ...ripple.parameters,
    sett: text({
      pattern: '[A-C][0-9]{1,2}( [A-C][0-9]{1,2}){0,9}',
      longest: 40,
      default: 'A8 B4',
      say: 'letters from A to C with numbers of threads, such as A8 B4',
      help: 'The order of the threads.',
    }),
  },
  prepare(setting: Setting) {
    const model = prepareRipple(setting as never);
    const { sett } = setting.parameters as unknown as { sett: string };
    const counts = sett.split(' ').map((part) => Number(part.slice(1)));
    const whole = counts.reduce((sum, count) => sum + count, 0);
    return { ...model, depth: model.depth * (counts[0] / whole) };
  },
};
export default noThreads;
