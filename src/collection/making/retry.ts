import { Fault } from '../../fault.ts';

/** What to do about a render that failed. */
export type Remedy =
  /** It would fail again. */
  | 'none'
  /** A crash, a time-out, memory: it may do better by itself. */
  | 'alone'
  /** The disk or the network was busy for a moment. */
  | 'wait'
  /** The disk is full: nothing else will fare better. */
  | 'full'
  /** The user stopped it. */
  | 'stopped';

const BUSY = ['EBUSY', 'EAGAIN', 'ETXTBSY', 'EMFILE', 'ENFILE', 'EIO', 'ESTALE', 'ETIMEDOUT', 'ENOENT'];
const FULL = ['ENOSPC', 'EDQUOT'];

/** Judges a failure by what kind it is and what caused it. */
export function remedyFor(error: unknown): Remedy {
  if (!Fault.is(error)) return remedyForSystem(error);
  if (error.kind === 'cancelled') return 'stopped';
  const code = codeOf(error);
  if (error.kind === 'output') {
    if (FULL.includes(code) || /disk (that is full|whose share)/.test(error.received)) return 'full';
    return BUSY.includes(code) ? 'wait' : 'none';
  }
  if (error.kind === 'input') return BUSY.includes(code) && code !== 'ENOENT' ? 'wait' : memoryOf(error);
  // What an effect throws it throws again; what ends its thread may have come of the company it was in.
  if (error.kind === 'effect' && isThreadEnd(error)) return 'alone';
  return memoryOf(error);
}

/** Claims and placing fail with the system's own errors. */
function remedyForSystem(error: unknown): Remedy {
  const code = (error as NodeJS.ErrnoException | undefined)?.code ?? '';
  if (FULL.includes(code)) return 'full';
  if (BUSY.includes(code)) return 'wait';
  return isOutOfMemory(error) ? 'alone' : 'none';
}

function memoryOf(error: Fault): Remedy {
  return isOutOfMemory(error.cause) || /fits into memory/.test(error.expected) ? 'alone' : 'none';
}

/** What the host says of an effect that could not answer for itself, and of a hand that died. */
function isThreadEnd({ expected, received }: Fault): boolean {
  return (
    /no progress for|memory taken|the end of its thread/.test(received) ||
    /the worker to finish/.test(expected)
  );
}

function isOutOfMemory(error: unknown): boolean {
  return error instanceof RangeError && /alloc|memory|length/i.test(error.message);
}

function codeOf(error: Fault): string {
  return (error.cause as NodeJS.ErrnoException | undefined)?.code ?? '';
}
