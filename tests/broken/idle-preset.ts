import { ripple } from './ripple.ts';

/** A preset that was begun from the defaults and never filled in. */
export const presets = [{ name: 'deep', parameters: { depth: 0.2 } }];

export default ripple;
