import type { Allot, Numbers, NumbersIn } from './allot.ts';
import { KERNEL } from './row-kernel.ts';

/** The kernel of this thread: its memory is filled from the beginning on, and what it asks for is told by name. */
export interface Kernel {
  /** Makes lists from byte `start` on, in memory that grows to hold `bytes` more: all views made before are void. */
  openRoom(start: number, bytes: number): Room;
  /** Sets what `row.as.ts` asks for by name. */
  tell(values: Places): void;
  /** Draws a row, see `row.as.ts`. */
  draw(row: number): void;
}

/** Numbers by name: mostly where lists begin, in bytes. */
export type Places = { readonly [Name: string]: number };

/** A part of the memory that lists are laid into, one after the other. */
export interface Room {
  readonly allot: Allot;
  /** Copies lists into it. */
  put(lists: { readonly [Name: string]: Numbers }): Places;
  /** The first byte after all lists. */
  end(): number;
}

/** Bytes at the beginning that are left to the kernel. */
export const FIRST_BYTE = 1024;
/**
 * Bytes after each room: a block looks up, and draws, a few places beyond the end of a run
 * (see `FURTHEST` in `row.as.ts`).
 */
export const SLACK = 16_384;
const PAGE = 65_536;
const ALIGNED = 16;

let opened: Kernel | undefined;

/** Opened when it is first needed. */
export function theKernel(): Kernel {
  opened ??= openKernel();
  return opened;
}

function openKernel(): Kernel {
  const bytes = Uint8Array.from(atob(KERNEL), (letter) => letter.charCodeAt(0));
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), {});
  const memory = exports.memory as WebAssembly.Memory;
  return {
    openRoom(start, roomBytes) {
      const missing = start + roomBytes + SLACK - memory.buffer.byteLength;
      if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
      return openRoom(memory.buffer, start);
    },
    tell(values) {
      for (const [name, value] of Object.entries(values)) (exports[name] as WebAssembly.Global).value = value;
    },
    draw: exports.paintRow as Kernel['draw'],
  };
}

function openRoom(memory: ArrayBuffer, start: number): Room {
  let next = start;
  const allot: Allot = (kind, length) => {
    const made = new kind(memory, next, length);
    next += Math.ceil(made.byteLength / ALIGNED) * ALIGNED;
    return made;
  };
  const put = (values: Numbers): number => {
    const made = allot(values.constructor as NumbersIn<Numbers>, values.length);
    made.set(values);
    return made.byteOffset;
  };
  return {
    allot,
    put: (lists) => Object.fromEntries(Object.entries(lists).map(([name, values]) => [name, put(values)])),
    end: () => next,
  };
}
