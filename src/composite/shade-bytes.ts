import { openKernel } from '../colour/open-kernel.ts';
import { BYTE_OF_LINEAR, LINEAR_OF_BYTE } from '../colour/srgb.ts';
import { KERNEL } from './shade-kernel.ts';
import { type Strength, strengthList } from './strength.ts';

/** What `shade.as.ts` does, and the memory that it does it in. */
interface ShadeKernel {
  readonly pixels: Uint8Array;
  readonly shade: Float32Array;
  readonly strength: Float32Array;
  shadeAll(count: number, step: number): void;
}

/** As in `shade.as.ts`. */
const MOST = 4096;

let opened: ShadeKernel | undefined;

/**
 * `layShade` on bytes. Light is cut to 32 bits where it would be kept in between.
 *
 * @param source RGBA samples; those of the layer's first pixel begin at `first`.
 * @param target Its sample `start` is that pixel's R.
 */
export function shadeBytes(
  source: Uint8Array | Uint8ClampedArray,
  first: number,
  shade: Float32Array,
  strength: Strength,
  target: Uint8Array | Uint8ClampedArray,
  start: number,
): void {
  opened ??= open();
  const { list, step } = strengthList(strength);
  for (let done = 0; done < shade.length; done += MOST) {
    const count = Math.min(MOST, shade.length - done);
    const from = first + 4 * done;
    opened.pixels.set(source.subarray(from, from + 4 * count));
    opened.shade.set(shade.subarray(done, done + count));
    opened.strength.set(list.subarray(step * done, step * done + (step === 0 ? 1 : count)));
    opened.shadeAll(count, 4 * step);
    target.set(opened.pixels.subarray(0, 4 * count), start + 4 * done);
  }
}

function open(): ShadeKernel {
  const { memory, shadeAll, ...places } = openKernel(KERNEL);
  const at = (name: string) => (places[name] as WebAssembly.Global).value;
  new Float32Array(memory.buffer, at('linear'), LINEAR_OF_BYTE.length).set(LINEAR_OF_BYTE);
  new Uint8Array(memory.buffer, at('byte'), BYTE_OF_LINEAR.length).set(BYTE_OF_LINEAR);
  return {
    pixels: new Uint8Array(memory.buffer, at('pixels'), 4 * MOST),
    shade: new Float32Array(memory.buffer, at('shade'), MOST),
    strength: new Float32Array(memory.buffer, at('strength'), MOST),
    shadeAll: shadeAll as ShadeKernel['shadeAll'],
  };
}
