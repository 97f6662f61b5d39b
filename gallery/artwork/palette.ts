import type { Ink } from './artwork.ts';

/** The eight inks of the collection. Every design takes its ground and its motif colours from these. */
export const LIMEWASH: Ink = { name: 'Limewash', hex: '#f3ecdd' };
export const SEA_FOG: Ink = { name: 'Sea Fog', hex: '#c3d1c9' };
export const SAMPHIRE: Ink = { name: 'Samphire', hex: '#93a46b' };
export const KELP: Ink = { name: 'Kelp', hex: '#4a5a3a' };
export const DEEP_WATER: Ink = { name: 'Deep Water', hex: '#1f3d4a' };
export const QUINCE: Ink = { name: 'Quince', hex: '#e2ad45' };
export const FLOWERPOT: Ink = { name: 'Flowerpot', hex: '#c5633f' };
export const RHUBARB: Ink = { name: 'Rhubarb', hex: '#e3a596' };

export const PALETTE: readonly Ink[] = [
  LIMEWASH,
  SEA_FOG,
  SAMPHIRE,
  KELP,
  DEEP_WATER,
  QUINCE,
  FLOWERPOT,
  RHUBARB,
];
