import { type MainColour, nearestColour } from '../inspect/index.ts';
import { trimNumber } from '../repeat/length.ts';
import { DEFAULT_TOLERANCE } from './passes.ts';
import type { RenderStep } from './step.ts';

/** What became of the mask of a step. */
export interface LaidMask {
  readonly step: RenderStep;
  /** The share of the tile that it let through, 0..1. */
  readonly share: number;
  /** Of the artwork, where the mask goes by colour. */
  readonly colours?: readonly MainColour[];
}

/** Below this share of a tile nobody finds it; above the rest nobody finds what is left out. */
const NEXT_TO_NOTHING = 0.0005;

/** True where next to nothing was laid. */
export function isUnlaid(share: number | undefined): boolean {
  return share !== undefined && share < NEXT_TO_NOTHING;
}

/** `laid on 37 % of the tile` */
export function wordsOfShare(share: number): string {
  return `laid on ${percent(share)} of the tile`;
}

/** `#f3ead8 (62 %), #8a2b1f (21 %)` */
export function wordsOfColours(colours: readonly MainColour[]): string {
  return colours.map(({ hex, share }) => `${hex} (${percent(share)})`).join(', ');
}

/** What the user should know of a mask that takes nothing of the tile, or all of it; nothing where it does its work. */
export function maskWarning({ step, share, colours }: LaidMask): string | undefined {
  const isNone = isUnlaid(share);
  if (!isNone && !isUnlaid(1 - share)) return undefined;
  const { effect, mask } = step;
  const came = isNone ? 'so nothing of it is seen' : 'as if it had no mask';
  const words = `${effect} was laid on ${isNone ? (share === 0 ? 'none' : 'next to nothing') : 'all'} of the tile, ${came}`;
  if (!mask?.colours) return `${words}: ${pictureWords(isNone, mask?.spare)}`;
  const isMissed = isNone !== (mask.spare ?? false);
  if (!isMissed)
    return `${words}: ${mask.colours.join(', ')} within the tolerance takes in all of its colours`;
  const found = isNone ? share : 1 - share;
  const { tolerance = DEFAULT_TOLERANCE } = mask;
  const nearest = mask.colours.map((hex) => nearestWords(hex, colours ?? [])).filter(Boolean);
  return `${words}: ${found === 0 ? 'no' : 'hardly any'} colour of the tile is within ${trimNumber(tolerance, 1)} (CIEDE2000) of ${mask.colours.join(', ')}. Its main colours are ${wordsOfColours(colours ?? [])}; ${nearest.join('; ')}. Name one of these, or allow a larger tolerance`;
}

function pictureWords(isNone: boolean, spare = false): string {
  const shade = isNone === spare ? 'white' : 'black';
  return `its mask picture is ${shade} all over`;
}

function nearestWords(hex: string, colours: readonly MainColour[]): string {
  const nearest = nearestColour(hex, colours);
  return nearest ? `nearest to ${hex} is ${nearest.hex}, ${trimNumber(nearest.difference, 1)} off` : '';
}

function percent(share: number): string {
  if (share > 0 && share < NEXT_TO_NOTHING) return 'less than 0.1 %';
  if (share < 1 && share > 1 - NEXT_TO_NOTHING) return 'more than 99.9 %';
  const whole = share * 100;
  return `${trimNumber(whole, whole < 10 || whole > 99 ? 1 : 0)} %`;
}
