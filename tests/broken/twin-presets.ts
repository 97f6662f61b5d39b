import { ripple } from './ripple.ts';

/** A name for the defaults is none of them; but there are two presets of which one was copied from the other, and never changed. */
export const presets = [
  { name: 'plain', parameters: {} },
  { name: 'deep', parameters: { depth: 0.4 } },
  { name: 'calm', parameters: { height: 0.5, depth: 0.4 } },
];

export default ripple;
