import type { Readable, Writable } from 'node:stream';

/** What a thread may print, in bytes; a picture is no reason for more. */
export const MOST_OUTPUT = 256 * 1024;

/**
 * Passes on what a thread prints, up to `MOST_OUTPUT`; the rest is left out, and that is said once.
 * All goes to the messages, so that it does not end up among the host's own answers.
 */
export function passOutputOn(
  streams: readonly Readable[],
  to: Pick<Writable, 'write'> = process.stderr,
  most = MOST_OUTPUT,
): void {
  let left = most;
  let isTold = false;
  for (const stream of streams) {
    // What is too much is read all the same, else it would pile up in the thread.
    stream.on('data', (bytes: Buffer) => {
      if (left > 0) to.write(bytes.subarray(0, left));
      left -= bytes.length;
      if (left >= 0 || isTold) return;
      isTold = true;
      to.write(`\nA plugin printed more than ${most / 1024} KB; the rest is left out.\n`);
    });
  }
}
