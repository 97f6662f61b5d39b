import { type AnyLayer, PLANE_NAMES } from '../layer.ts';

/** Both zeros are one. */
const MINUS_ZERO = 0x80000000;

/** Text that is the same for layers of the same floats, and hardly ever for others: FNV-1a over their bits. */
export function fingerprintOf(layer: AnyLayer): string {
  return PLANE_NAMES.map((name) => (layer[name] ? hashOf(layer[name]) : 'none')).join(' ');
}

function hashOf({ buffer, byteOffset, length }: Float32Array): number {
  const words = new Uint32Array(buffer, byteOffset, length);
  let hash = 0x811c9dc5;
  for (const word of words) hash = Math.imul(hash ^ (word === MINUS_ZERO ? 0 : word), 0x01000193);
  return hash >>> 0;
}
