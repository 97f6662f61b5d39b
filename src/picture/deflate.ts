import { openKernel } from '../colour/open-kernel.ts';
import { KERNEL } from './deflate-kernel.ts';

/** What `deflate.as.ts` does, in the memory of this thread's kernel. Places are in bytes. */
export interface DeflateKernel {
  /** The first byte that is free. */
  readonly firstByte: number;
  /** All of its memory, of at least so many bytes; views made before may be void. */
  open(bytes: number): Uint8Array;
  filterBytes: FilterRow;
  filterShorts: FilterRow;
  measure(from: number, bytes: number): { readonly differences: number; readonly alike: number };
  adler32(from: number, bytes: number): number;
  /** @returns Bytes written. */
  deflate(from: number, bytes: number, to: number, withRuns: boolean): number;
}

type FilterRow = (
  source: number,
  before: number,
  width: number,
  isSub: boolean,
  opaque: boolean,
  row: number,
) => void;

/** Bytes to leave free behind what is laid into its memory: sixteen are read and written at a time. */
export const SLACK = 64;
const PAGE = 65_536;

let opened: DeflateKernel | undefined;

/** Opened when it is first needed. */
export function theKernel(): DeflateKernel {
  opened ??= open();
  return opened;
}

function open(): DeflateKernel {
  const exports = openKernel(KERNEL);
  const { memory } = exports;
  const [differences, alike] = [exports.differences, exports.alike] as WebAssembly.Global[];
  const call = exports as unknown as DeflateKernel & { firstFree(): number };
  return {
    firstByte: call.firstFree() + SLACK,
    open(bytes) {
      const missing = bytes - memory.buffer.byteLength;
      if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
      return new Uint8Array(memory.buffer);
    },
    filterBytes: call.filterBytes,
    filterShorts: call.filterShorts,
    measure(from, bytes) {
      call.measure(from, bytes);
      return { differences: differences.value, alike: alike.value };
    },
    adler32: (from, bytes) => call.adler32(from, bytes) >>> 0,
    deflate: call.deflate,
  };
}
