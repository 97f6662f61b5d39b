import { setImmediate } from 'node:timers/promises';
import type { Frame } from '../../colour/frame.ts';
import { cancelled } from '../../effect/setting.ts';
import {
  createRecolourer,
  createUnmixer,
  isMisfit,
  type Misfit,
  measureMisfit,
  type Unmixer,
} from '../../ink/index.ts';
import { trimNumber } from '../../repeat/length.ts';
import type { InksInForce } from './inks-in-force.ts';

/** Pixels at a time: some milliseconds. */
const BAND_PIXELS = 1 << 20;

/**
 * Gives a picture the colours of the colourway in force, where it lies, band by band; where none is, or it has the
 * card's own colours, nothing is done.
 *
 * @throws Fault (usage) for a card with too many inks; Fault (cancelled), some bands then being recoloured.
 */
export async function recolourFrame(
  { pixels }: Frame,
  { card, colourway }: InksInForce,
  { unmixer, signal }: { readonly unmixer?: Unmixer; readonly signal?: AbortSignal } = {},
): Promise<void> {
  if (!colourway || isOwn({ card, colourway })) return;
  const recolourer = createRecolourer(card, colourway, pixels, unmixer);
  for (let from = 0; from < pixels.length; from += 4 * BAND_PIXELS) {
    if (signal?.aborted) throw cancelled();
    recolourer.recolour(pixels.subarray(from, from + 4 * BAND_PIXELS));
    await setImmediate();
  }
}

/** True where every ink has the colour that it has on the card. */
export function isOwn({ card, colourway }: Pick<InksInForce, 'card' | 'colourway'>): boolean {
  return (
    !colourway ||
    card.inks.every(({ colour }, at) =>
      colour.every((byte, channel) => byte === colourway.colours[at][channel]),
    )
  );
}

/** What is to be said where the card in force most likely belongs to another picture; nothing where it fits. */
export function misfitWarning(picture: Frame, { card }: InksInForce, unmixer?: Unmixer): string | undefined {
  const misfit = measureMisfit(picture, card, unmixer ?? createUnmixer(card));
  return isMisfit(misfit) ? misfitWords(card.name, misfit) : undefined;
}

function misfitWords(card: string, { mean, p95 }: Misfit): string {
  return `the card "${card}" seems to be that of another tile: mixes of its inks are off this one by ${trimNumber(mean, 1)} on average (CIEDE2000; 95 of 100 pixels by at most ${trimNumber(p95, 1)})`;
}
