import type { Frame } from '../colour/frame.ts';
import { hexOfBytes } from '../host/ink/inks-in-force.ts';
import { createUnmixer, MIXED_INKS, printedInks, type ShadeCard, WHOLE } from '../ink/index.ts';
import type { InkFacts } from './facts.ts';

/** Pixels told apart at once: some MB. */
const RUN = 1 << 18;

/** How much of a print each ink of a card covers, in areas of linear light. @param cm2 Area of the print. */
export function inkFacts(card: ShadeCard, { pixels }: Frame, cm2: number): InkFacts[] {
  const total = pixels.length / 4;
  const sums = new Float64Array(card.inks.length);
  const unmixer = createUnmixer(card);
  const inks = new Uint8Array(MIXED_INKS * RUN);
  const amounts = new Uint16Array(MIXED_INKS * RUN);
  for (let first = 0; first < total; first += RUN) {
    const count = Math.min(RUN, total - first);
    const run = {
      inks: inks.subarray(0, MIXED_INKS * count),
      amounts: amounts.subarray(0, MIXED_INKS * count),
    };
    unmixer.unmix(pixels.subarray(4 * first, 4 * (first + count)), run);
    for (let at = 0; at < run.inks.length; at++) sums[run.inks[at]] += run.amounts[at];
  }
  const printed = printedInks(card);
  return card.inks.map((ink, index) => {
    const share = sums[index] / WHOLE / total;
    const place = printed.indexOf(ink);
    return {
      ...{ name: ink.name, kind: ink.kind, covers: ink.covers, note: ink.note },
      colour: hexOfBytes(ink.colour),
      order: place < 0 ? undefined : place + 1,
      percent: 100 * share,
      cm2: cm2 * share,
    };
  });
}
