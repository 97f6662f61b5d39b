import type { Seen } from '../../../host/sight/order.ts';
import { formatLayout } from '../../../repeat/layout.ts';
import type { Look } from '../../words/look.ts';
import type { RenderedStep } from './laid-steps.ts';

/** The body of a look: the length of its facts, the facts, and the pixels, which begin at a multiple of 4. */
export function packLook(seen: Seen, steps: readonly RenderedStep[]): Uint8Array<ArrayBuffer> {
  const { frame } = seen;
  const facts = new TextEncoder().encode(JSON.stringify(factsOf(seen, steps)));
  const room = Math.ceil(facts.length / 4) * 4;
  const body = new Uint8Array(4 + room + frame.pixels.length);
  new DataView(body.buffer).setUint32(0, room, true);
  body.fill(' '.charCodeAt(0), 4, 4 + room);
  body.set(facts, 4);
  body.set(frame.pixels, 4 + room);
  return body;
}

function factsOf({ frame, part, layout, isCoarse, ...seen }: Seen, steps: readonly RenderedStep[]): Look {
  const laid = steps.flatMap(({ id }, index) => {
    const share = seen.laidOn[index];
    return share === undefined ? [] : [[id, share] as const];
  });
  return {
    ...{ width: frame.width, height: frame.height, part, layout: formatLayout(layout), isCoarse },
    reports: Object.fromEntries(steps.map(({ id }, index) => [id, seen.reports[index]])),
    laidOn: Object.fromEntries(laid),
    timings: { prepare: seen.timings.prepare, paint: seen.timings.paint },
  };
}
