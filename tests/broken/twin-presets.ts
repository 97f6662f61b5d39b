import { ripple } from './ripple.ts';

/** Two presets of which one was copied from the other, and never changed. */
export const presets = [
  { name: 'deep', parameters: { depth: 0.4 } },
  { name: 'calm', parameters: { height: 0.5, depth: 0.4 } },
];

export default ripple;
