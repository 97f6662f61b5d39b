import { smoothstep } from 'tenter';

/** Of what is touched in, the amount at which its front stands in damp paper. */
const FRONT = 0.16;
/** How soft the front is, in shares of that: in damp paper, and where the sheet was soaked. */
const CRISP = 0.22;
const FEATHERED = 2.4;
/** What gathers along a front that damp paper stopped, and over how much of the amount. */
const RIM = 0.34;

/**
 * Paint that was let into the sheet, as its front left it: feathered where all was wet, and where it
 * reached damp paper crisp without, with a line that gathered within.
 *
 * @param amount What the flow carried there of paint at its full strength.
 * @param streak Filaments of the current, deviation 1.
 * @param wet    0 damp, 1 soaked.
 * @param pace   How far the water ran, 0..1.
 */
export function touchedAt(amount: number, streak: number, wet: number, pace: number): number {
  if (amount < 0.004) return 0;
  const front = FRONT * (1 - 0.75 * wet);
  const over = (amount - front) / front;
  const width = CRISP + (FEATHERED - CRISP) * wet * wet;
  if (over <= -width) return 0;
  const share = smoothstep((over + width) / (2 * width));
  const rim = over > 0 ? RIM * (1 - wet) * Math.exp(-over / 0.35) : 0;
  return share * (amount * Math.exp((0.06 + 0.12 * pace) * streak) + rim * FRONT * 2.2);
}
